"""Signs in to a demo app as its manager."""

from __future__ import annotations

from bs4 import BeautifulSoup
from flask import Flask


def cookies_of(app: Flask) -> str:
    """Return the cookies of the demo's manager, as one header."""
    client = app.test_client()
    page = BeautifulSoup(client.get("/").data, "html.parser")
    form = page.select("form[action^='/step-in/']")[-1]
    sent = {str(field["name"]): str(field.get("value", "")) for field in form.select("input[name]")}
    answer = client.post(str(form["action"]), data=sent, headers={"Sec-Fetch-Site": "same-origin"})
    assert answer.status_code == 303
    cookies = client._cookies or {}
    return "; ".join(f"{cookie.key}={cookie.value}" for cookie in cookies.values())
