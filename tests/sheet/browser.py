"""A real browser for the page's tests, spoken to through chromedriver in the words of W3C WebDriver."""

from __future__ import annotations

import atexit
import base64
import contextlib
import json
import os
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.request
from functools import cache
from pathlib import Path
from typing import Any

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
DRIVER = shutil.which("chromedriver")
MISSING = "no chromium and chromedriver on this machine: the page is not tested in a browser"

_ARGUMENTS = [
    "--headless",
    "--no-sandbox",  # a container's root has no user namespaces to build one of
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--force-device-scale-factor=1",
]


@cache
def window() -> Browser:
    """The one window that all tests share; it is closed when they are over."""
    browser = Browser()
    atexit.register(browser.close)
    return browser


class Browser:
    """One headless window; closed with `close`."""

    def __init__(self) -> None:
        assert CHROMIUM and DRIVER, MISSING
        self._folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        log = Path(self._folder.name, "driver.log")
        self._driver = subprocess.Popen(
            [DRIVER, f"--port={port}", f"--log-path={log}"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "NO_PROXY": "127.0.0.1"},
        )
        self._at = f"http://127.0.0.1:{port}"
        self._await_driver()
        options = {
            "binary": CHROMIUM,
            "args": [*_ARGUMENTS, f"--user-data-dir={Path(self._folder.name, 'profile')}"],
        }
        wanted = {"goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}}
        session = self._ask("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
        self._at += f"/session/{session['sessionId']}"

    def _await_driver(self) -> None:
        until = time.monotonic() + 10
        while True:
            try:
                self._ask("GET", "/status")
                return
            except OSError:
                if time.monotonic() > until:
                    raise
                time.sleep(0.05)

    def _ask(self, method: str, path: str, body: object = None) -> Any:
        content = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self._at + path, content, {"Content-Type": "application/json"})
        request.method = method
        with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(request, timeout=60) as answer:
            return json.load(answer)["value"]

    def open(self, page: Path) -> None:
        """Load a page from a file, and forget what earlier ones logged."""
        self.errors()
        self._ask("POST", "/url", {"url": page.resolve().as_uri()})

    def errors(self) -> list[str]:
        """What the console was told since last asked: script errors, and whatever the policy refused."""
        return [entry["message"] for entry in self._ask("POST", "/se/log", {"type": "browser"})]

    def run(self, script: str, *arguments: object) -> Any:
        """The value a script returns. It runs beside the page's policy, which binds only the page itself."""
        return self._ask("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def press(self, *keys: str) -> None:
        """Press and let go keys, one after the other: a character, or a code point of WebDriver's (Tab is \\ue004)."""
        told = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        self._ask("POST", "/actions", {"actions": [{"type": "key", "id": "keys", "actions": told}]})

    def point_at(self, x: float, y: float) -> None:
        """Move the pointer, in pixels of the window."""
        move = {"type": "pointerMove", "x": round(x), "y": round(y), "duration": 0}
        self._ask("POST", "/actions", {"actions": [{"type": "pointer", "id": "mouse", "actions": [move]}]})

    def size(self, width: int, height: int) -> None:
        """The room the page has, in pixels."""
        self.devtools(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False},
        )

    def colours(self, scheme: str) -> None:
        """`light` or `dark`, as a reader's system asks for."""
        features = [{"name": "prefers-color-scheme", "value": scheme}]
        self.devtools("Emulation.setEmulatedMedia", {"features": features})

    def devtools(self, command: str, parameters: dict[str, object]) -> Any:
        """A command for which WebDriver has no word."""
        return self._ask("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def picture(self, file: Path, whole: bool = False) -> None:
        """A screenshot, of the whole page if wanted."""
        shot = self.devtools("Page.captureScreenshot", {"captureBeyondViewport": whole})
        file.write_bytes(base64.b64decode(shot["data"]))

    def printed(self, width: float, height: float) -> bytes:
        """The page as PDF on paper of this size in cm, at true scale, margins as the page asks for."""
        paper = {"page": {"width": width, "height": height}, "background": True, "shrinkToFit": False}
        return base64.b64decode(self._ask("POST", "/print", paper))

    def close(self) -> None:
        """End the browser and its driver, and remove what they kept."""
        with contextlib.suppress(OSError):
            self._ask("DELETE", "")
        self._driver.terminate()
        self._driver.wait(timeout=10)
        self._folder.cleanup()
