"""The verbs an assessor's checklist begins its acts with, and the words that join two, by language.

Common practice of the house: third person, as a point says what the cook does. A verb that is also a plain noun of the
kitchen (covers, plates, tongs; prueba, sal, corte) is left out.
"""

from __future__ import annotations

JOINS = {
    "en": frozenset({"and", "then", ";"}),
    "es": frozenset({"y", "e", "luego", ";"}),
}
ALSO_ADJECTIVES = frozenset({"limpia", "seca", "llena", "vacía", "vacia", "junta", "corta"})
"""Spanish verbs that describe a thing as well: they count at the beginning, or where an article follows."""
ARTICLES = frozenset({"el", "la", "los", "las", "un", "una", "su", "sus"})
_ENGLISH = """
adds answers asks bends brings brushes calls carries catches checks chills cleans closes comes cools covers cuts
dates dips does drains draws drops dries empties enters fills finds folds gets gives goes heats holds keeps keys
knows lays leaves lets lifts lights lowers makes measures mixes moves names opens pats peels picks pours presses
probes pulls pushes puts reads reaches removes repeats returns rinses rolls rubs runs salts sanitizes says scoops
scrapes scrubs seals seasons sends separates serves sets shakes shows sieves sits skims slices soaks stacks starts
states stays steps stirs stops strains sweeps switches takes tastes tells tests throws ties tips tosses touches
trims turns unplugs uses waits walks warms washes watches wears weighs whisks wipes works wraps writes
"""
_SPANISH = """
abre acomoda agarra agrega amarra anota añade apaga aparta aprieta arma avisa baja barre bate busca calienta cambia
cierra coge coloca comprueba conecta contesta corta cubre cuela da deja desconecta descansa desinfecta detiene dice
dobla echa empieza empuja enciende enfría enjuaga enrolla entrega envuelve escribe escurre espera espuma etiqueta
explica frota guarda hace hierve informa inicia jala junta lava lee levanta limpia llama llena lleva llega mantiene
mete mezcla mide mueve muestra nombra observa orea pasa pela pesa pide pone pregunta prende presiona quita raspa
rebana recoge regresa remoja remueve repite responde retira revisa revuelve saca seca secan sella separa señala
sigue sirve sostiene sube suelta tapa termina tira toca toma usa vacía vacia ve verifica vierte voltea vuelve
"""
POINT_VERBS = {"en": frozenset(_ENGLISH.split()), "es": frozenset(_SPANISH.split())}
