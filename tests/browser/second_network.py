"""A phone in a network of its own, by the kitchen's name over HTTPS: it loses the network, works on, and sends later.

Run as root, since it makes a network: ``.venv/bin/python -m tests.browser.second_network FOLDER``, with the folder of a
demo kitchen (it works on a copy). The phone trusts this kitchen's certificate alone, by its public key.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import ssl
import subprocess
import sys
import tempfile
import time
from base64 import b64encode
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import expect, sync_playwright

from tests.browser.engine import SWITCHES, chromium
from tests.browser.somebody import Somebody
from tests.browser.test_offline import BAND, all_is_kept

PHONE, HERE, THERE, NAME, PORT = "kitchen-phone", "10.77.0.1", "10.77.0.2", "kitchen.lan", 8449
ADDRESS = f"https://{NAME}:{PORT}"
TRAINER = str(Path(sys.executable).parent / "trainer")


def run(*command: str) -> None:
    """Run a command; a failure ends all."""
    subprocess.run(command, check=True)


def network() -> None:
    """Make a second network with a wire to this machine, in which the kitchen has a name."""
    run("ip", "netns", "add", PHONE)
    run("ip", "link", "add", "kitchen0", "type", "veth", "peer", "name", "phone0", "netns", PHONE)
    run("ip", "addr", "add", f"{HERE}/24", "dev", "kitchen0")
    run("ip", "link", "set", "kitchen0", "up")
    for command in (["addr", "add", f"{THERE}/24", "dev", "phone0"], ["link", "set", "lo", "up"], *wire("up")):
        run("ip", "-n", PHONE, *command)
    hosts = Path("/etc/netns") / PHONE / "hosts"
    hosts.parent.mkdir(parents=True, exist_ok=True)
    hosts.write_text(f"127.0.0.1 localhost\n{HERE} {NAME}\n", "utf-8")


def wire(state: str) -> list[list[str]]:
    """Return what takes the phone's wire up or down."""
    return [["link", "set", "phone0", state]]


def no_network() -> None:
    """Take all of it away."""
    subprocess.run(["ip", "netns", "del", PHONE], check=False)
    shutil.rmtree(Path("/etc/netns") / PHONE, ignore_errors=True)


def public_key() -> str:
    """Return the digest of the public key of the kitchen's certificate, as Chromium takes it."""
    for _ in range(450):
        try:
            found = x509.load_pem_x509_certificate(ssl.get_server_certificate((HERE, PORT)).encode())
        except OSError:
            time.sleep(0.2)
        else:
            key = found.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
            return b64encode(hashlib.sha256(key).digest()).decode()
    raise AssertionError("The kitchen never answered.")


def kitchen(folder: Path) -> None:
    """Serve a copy of a demo kitchen over HTTPS, and let the phone come to it from the other network."""
    with tempfile.TemporaryDirectory() as room:
        shutil.copytree(folder, Path(room) / "kitchen")
        told = {**os.environ, "TRAINER_KITCHEN": f"{room}/kitchen"}
        subprocess.run([TRAINER, "https", "--name", NAME], env=told, check=True)
        serve = [TRAINER, "serve", "--host", HERE, "--port", str(PORT), "--name", NAME]
        with subprocess.Popen(serve, env=told) as server:
            try:
                inside = ("ip", "netns", "exec", PHONE, sys.executable, "-m", "tests.browser.second_network")
                run(*inside, "--phone", public_key())
            finally:
                server.terminate()


def phone(key: str) -> None:
    """Keep pages, lose the wire, go through a technique and say it is read; with the wire back it is in the book."""
    with sync_playwright() as playwright:
        trust = f"--ignore-certificate-errors-spki-list={key}"
        browser = playwright.chromium.launch(executable_path=chromium(), args=[*SWITCHES, trust])
        noor = Somebody(browser, ADDRESS, keeps=True)
        noor.open("/")
        noor.press_starting("Step in as Noor")
        all_is_kept(noor)
        run("ip", *wire("down")[0])
        noor.open("/techniques/clean_hands")
        assert BAND in noor.work
        noor.next_act()
        while noor.page.get_by_role("link", name="Next", exact=True).count():
            noor.press("Next")
        noor.press_starting("I have read edition")
        noor.open("/unsent")
        assert "Waiting to be sent: 1." in noor.work, noor.work
        run("ip", *wire("up")[0])
        noor.open("/unsent")
        expect(noor.page.locator("[data-none]")).to_be_visible(timeout=60_000)
        noor.open("/record")
        assert "Read edition" in noor.work
        print(f"{ADDRESS}: kept, read without network, sent once it was back.")
        browser.close()


if __name__ == "__main__":
    if sys.argv[1] == "--phone":
        phone(sys.argv[2])
    else:
        no_network()
        network()
        try:
            kitchen(Path(sys.argv[1]))
        finally:
            no_network()
