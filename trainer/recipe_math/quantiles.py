"""Quantiles of the normal distribution and of Student's t, for intervals about a mean and about a share.

Student's t is a table, exact to its five decimals, for 1 to 120 degrees of freedom. Normal quantiles are worked out by
the standard library (an estimate, in floats) and handed back as fractions of ten decimals.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from statistics import NormalDist
from types import MappingProxyType

from trainer.recipe_math.quantity import QuantityProblem

PLACES = 10
_T_FIGURES: Mapping[Fraction, str] = {
    Fraction("0.90"): """
        3.07768 1.88562 1.63774 1.53321 1.47588 1.43976 1.41492 1.39682 1.38303 1.37218 1.36343 1.35622 1.35017 1.34503
        1.34061 1.33676 1.33338 1.33039 1.32773 1.32534 1.32319 1.32124 1.31946 1.31784 1.31635 1.31497 1.31370 1.31253
        1.31143 1.31042 1.30946 1.30857 1.30774 1.30695 1.30621 1.30551 1.30485 1.30423 1.30364 1.30308 1.30254 1.30204
        1.30155 1.30109 1.30065 1.30023 1.29982 1.29944 1.29907 1.29871 1.29837 1.29805 1.29773 1.29743 1.29713 1.29685
        1.29658 1.29632 1.29607 1.29582 1.29558 1.29536 1.29513 1.29492 1.29471 1.29451 1.29432 1.29413 1.29394 1.29376
        1.29359 1.29342 1.29326 1.29310 1.29294 1.29279 1.29264 1.29250 1.29236 1.29222 1.29209 1.29196 1.29183 1.29171
        1.29159 1.29147 1.29136 1.29125 1.29114 1.29103 1.29092 1.29082 1.29072 1.29062 1.29053 1.29043 1.29034 1.29025
        1.29016 1.29007 1.28999 1.28991 1.28982 1.28974 1.28967 1.28959 1.28951 1.28944 1.28937 1.28930 1.28922 1.28916
        1.28909 1.28902 1.28896 1.28889 1.28883 1.28877 1.28871 1.28865
    """,
    Fraction("0.95"): """
        6.31375 2.91999 2.35336 2.13185 2.01505 1.94318 1.89458 1.85955 1.83311 1.81246 1.79588 1.78229 1.77093 1.76131
        1.75305 1.74588 1.73961 1.73406 1.72913 1.72472 1.72074 1.71714 1.71387 1.71088 1.70814 1.70562 1.70329 1.70113
        1.69913 1.69726 1.69552 1.69389 1.69236 1.69092 1.68957 1.68830 1.68709 1.68595 1.68488 1.68385 1.68288 1.68195
        1.68107 1.68023 1.67943 1.67866 1.67793 1.67722 1.67655 1.67591 1.67528 1.67469 1.67412 1.67356 1.67303 1.67252
        1.67203 1.67155 1.67109 1.67065 1.67022 1.66980 1.66940 1.66901 1.66864 1.66827 1.66792 1.66757 1.66724 1.66691
        1.66660 1.66629 1.66600 1.66571 1.66543 1.66515 1.66488 1.66462 1.66437 1.66412 1.66388 1.66365 1.66342 1.66320
        1.66298 1.66277 1.66256 1.66235 1.66216 1.66196 1.66177 1.66159 1.66140 1.66123 1.66105 1.66088 1.66071 1.66055
        1.66039 1.66023 1.66008 1.65993 1.65978 1.65964 1.65950 1.65936 1.65922 1.65909 1.65895 1.65882 1.65870 1.65857
        1.65845 1.65833 1.65821 1.65810 1.65798 1.65787 1.65776 1.65765
    """,
    Fraction("0.975"): """
        12.70620 4.30265 3.18245 2.77645 2.57058 2.44691 2.36462 2.30600 2.26216 2.22814 2.20099 2.17881 2.16037 2.14479
        2.13145 2.11991 2.10982 2.10092 2.09302 2.08596 2.07961 2.07387 2.06866 2.06390 2.05954 2.05553 2.05183 2.04841
        2.04523 2.04227 2.03951 2.03693 2.03452 2.03224 2.03011 2.02809 2.02619 2.02439 2.02269 2.02108 2.01954 2.01808
        2.01669 2.01537 2.01410 2.01290 2.01174 2.01063 2.00958 2.00856 2.00758 2.00665 2.00575 2.00488 2.00404 2.00324
        2.00247 2.00172 2.00100 2.00030 1.99962 1.99897 1.99834 1.99773 1.99714 1.99656 1.99601 1.99547 1.99495 1.99444
        1.99394 1.99346 1.99300 1.99254 1.99210 1.99167 1.99125 1.99085 1.99045 1.99006 1.98969 1.98932 1.98896 1.98861
        1.98827 1.98793 1.98761 1.98729 1.98698 1.98667 1.98638 1.98609 1.98580 1.98552 1.98525 1.98498 1.98472 1.98447
        1.98422 1.98397 1.98373 1.98350 1.98326 1.98304 1.98282 1.98260 1.98238 1.98217 1.98197 1.98177 1.98157 1.98137
        1.98118 1.98099 1.98081 1.98063 1.98045 1.98027 1.98010 1.97993
    """,
    Fraction("0.99"): """
        31.82052 6.96456 4.54070 3.74695 3.36493 3.14267 2.99795 2.89646 2.82144 2.76377 2.71808 2.68100 2.65031 2.62449
        2.60248 2.58349 2.56693 2.55238 2.53948 2.52798 2.51765 2.50832 2.49987 2.49216 2.48511 2.47863 2.47266 2.46714
        2.46202 2.45726 2.45282 2.44868 2.44479 2.44115 2.43772 2.43449 2.43145 2.42857 2.42584 2.42326 2.42080 2.41847
        2.41625 2.41413 2.41212 2.41019 2.40835 2.40658 2.40489 2.40327 2.40172 2.40022 2.39879 2.39741 2.39608 2.39480
        2.39357 2.39238 2.39123 2.39012 2.38905 2.38801 2.38701 2.38604 2.38510 2.38419 2.38330 2.38245 2.38161 2.38081
        2.38002 2.37926 2.37852 2.37780 2.37710 2.37642 2.37576 2.37511 2.37448 2.37387 2.37327 2.37269 2.37212 2.37156
        2.37102 2.37049 2.36998 2.36947 2.36898 2.36850 2.36803 2.36757 2.36712 2.36667 2.36624 2.36582 2.36541 2.36500
        2.36461 2.36422 2.36384 2.36346 2.36310 2.36274 2.36239 2.36204 2.36170 2.36137 2.36105 2.36073 2.36041 2.36010
        2.35980 2.35950 2.35921 2.35892 2.35864 2.35837 2.35809 2.35782
    """,
    Fraction("0.995"): """
        63.65674 9.92484 5.84091 4.60409 4.03214 3.70743 3.49948 3.35539 3.24984 3.16927 3.10581 3.05454 3.01228 2.97684
        2.94671 2.92078 2.89823 2.87844 2.86093 2.84534 2.83136 2.81876 2.80734 2.79694 2.78744 2.77871 2.77068 2.76326
        2.75639 2.75000 2.74404 2.73848 2.73328 2.72839 2.72381 2.71948 2.71541 2.71156 2.70791 2.70446 2.70118 2.69807
        2.69510 2.69228 2.68959 2.68701 2.68456 2.68220 2.67995 2.67779 2.67572 2.67373 2.67182 2.66998 2.66822 2.66651
        2.66487 2.66329 2.66176 2.66028 2.65886 2.65748 2.65615 2.65485 2.65360 2.65239 2.65122 2.65008 2.64898 2.64790
        2.64686 2.64585 2.64487 2.64391 2.64298 2.64208 2.64120 2.64034 2.63950 2.63869 2.63790 2.63712 2.63637 2.63563
        2.63491 2.63421 2.63353 2.63286 2.63220 2.63157 2.63094 2.63033 2.62973 2.62915 2.62858 2.62802 2.62747 2.62693
        2.62641 2.62589 2.62539 2.62489 2.62441 2.62393 2.62347 2.62301 2.62256 2.62212 2.62169 2.62126 2.62085 2.62044
        2.62004 2.61964 2.61926 2.61888 2.61850 2.61814 2.61778 2.61742
    """,
}
T_TABLE: Mapping[Fraction, tuple[Fraction, ...]] = MappingProxyType(
    {level: tuple(Fraction(figure) for figure in figures.split()) for level, figures in _T_FIGURES.items()}
)
"""Quantiles of Student's t by level; the first of each is for 1 degree of freedom."""
MOST_DEGREES = 120


def t_quantile(level: Fraction, degrees: int) -> Fraction:
    """Return the value that Student's t stays below with this probability, to five decimals.

    Levels 0.90, 0.95, 0.975, 0.99 and 0.995, for 1 to 120 degrees of freedom (QuantityProblem). A sample of n has n - 1
    degrees of freedom. Source: the definition; the tests compare every figure with scipy.

    >>> t_quantile(Fraction("0.975"), 4) == Fraction("2.77645")
    True
    """
    if level not in T_TABLE:
        known = ", ".join(str(float(one)) for one in T_TABLE)
        raise QuantityProblem(f"There is no table of t for {level}: the levels are {known}.")
    if not 1 <= degrees <= MOST_DEGREES:
        raise QuantityProblem(f"The table of t has 1 to {MOST_DEGREES} degrees of freedom, not {degrees}.")
    return T_TABLE[level][degrees - 1]


def normal_quantile(level: Fraction) -> Fraction:
    """Return the value that a standard normal stays below with this probability, to ten decimals.

    The level lies between 0 and 1, neither of them (QuantityProblem). NIST/SEMATECH e-Handbook of Statistical Methods,
    section 7.2.4.1, uses 1.645 for 95 percent.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(normal_quantile(Fraction("0.95")), 3)
    '1.645'
    """
    _refuse_certain(level)
    return as_fraction(NormalDist().inv_cdf(float(level)))


def normal_share_below(value: Fraction) -> Fraction:
    """Return the share of a standard normal that lies below a value, to ten decimals.

    >>> normal_share_below(Fraction(0))
    Fraction(1, 2)
    """
    return as_fraction(NormalDist().cdf(float(value)))


def two_sided(confidence: Fraction) -> Fraction:
    """Return the one-sided level that leaves the same on either side: 0.975 for a confidence of 0.95.

    The confidence lies between 0 and 1, neither of them (QuantityProblem).

    >>> two_sided(Fraction("0.95"))
    Fraction(39, 40)
    """
    _refuse_certain(confidence)
    return (1 + confidence) / 2


def as_fraction(figure: float, places: int = PLACES) -> Fraction:
    """Return a float as the fraction of its decimals.

    >>> as_fraction(0.125, 2)
    Fraction(3, 25)
    """
    return Fraction(f"{figure:.{places}f}")


def _refuse_certain(level: Fraction) -> None:
    if not 0 < level < 1:
        raise QuantityProblem(f"A level of {level} is not possible: it lies between 0 and 1 (95 percent is 19/20).")
