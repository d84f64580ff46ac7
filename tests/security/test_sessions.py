"""Nobody gets into the app's sessions by a token, a page or a link of their own making."""

import json
from base64 import urlsafe_b64decode, urlsafe_b64encode

import pytest
from bokeh.util.token import generate_jwt_token, generate_session_id
from tornado.httpclient import HTTPClientError

from dashboard.app import MESSAGE
from tests.security.served import PUBLIC

KEY = b"a key of one's own, as long as the server's would be"


def other_session(token: str) -> str:
    """A true token whose session was changed, under its old signature."""
    body, signature = token.split(".", 1)
    told = json.loads(urlsafe_b64decode(body + "=" * (-len(body) % 4)))
    told["session_id"] = generate_session_id(KEY, signed=True)
    changed = urlsafe_b64encode(json.dumps(told).encode()).decode().rstrip("=")
    return f"{changed}.{signature}"


def test_a_page_s_own_token_is_taken_from_its_own_and_the_public_address(app):
    for origin in (f"http://{app.host}", f"https://{PUBLIC}"):
        assert "msgid" in app.heard(app.token(), origin)


@pytest.mark.parametrize("signed", [False, True])
def test_a_token_of_one_s_own_making_is_refused(app, signed):
    name = generate_session_id(KEY, signed=signed)
    token = generate_jwt_token(name, KEY, signed, {"headers": {}, "cookies": {}, "arguments": {}})
    assert app.heard(token, f"http://{app.host}") is None


def test_a_true_token_changed_to_another_session_is_refused(app):
    assert app.heard(other_session(app.token()), f"http://{app.host}") is None


@pytest.mark.parametrize(
    "origin", ["https://evil.invalid", "null", f"http://{PUBLIC}.evil.invalid"]
)
def test_a_page_of_another_site_cannot_speak_to_the_app(app, origin):
    with pytest.raises(HTTPClientError, match="403"):
        app.heard(app.token(), origin)


def test_nobody_is_sent_into_another_s_session_by_a_link(app):
    token = app.token()
    name = json.loads(urlsafe_b64decode(token.split(".")[0] + "==="))["session_id"]
    for path, headers in (
        (f"/?bokeh-session-id={name}", {}),
        (f"/?bokeh-token={token}", {}),
        ("/", {"Bokeh_Session_Id": name}),
    ):
        assert app.get(path, **headers)[0] == 403


def test_the_app_is_not_handed_to_pages_of_other_sites(app):
    script = "/autoload.js?bokeh-autoload-element=x&bokeh-absolute-url=http://evil.invalid"
    assert app.get(script)[0] == 404
    _status, headers, _text = app.get("/wall")
    policy = headers["Content-Security-Policy"]
    assert "frame-ancestors 'none'" in policy
    assert "object-src 'none'" in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert app.get("/wall", Host="evil.invalid' https:")[0] == 400


def test_a_message_larger_than_any_upload_is_refused(app):
    origin = f"http://{app.host}"
    assert app.heard(app.token(), origin, b"x" * (MESSAGE + 1)) is None


def test_a_visitor_is_known_by_a_cookie_that_no_script_and_no_other_site_gets(app):
    cookie = app.get("/wall")[1]["Set-Cookie"]
    assert {"HttpOnly", "Secure", "SameSite=Lax", "Path=/"} <= set(cookie.split("; "))
    assert len(cookie.split(";")[0].removeprefix("treestead=")) >= 32
    name = "A" * 32
    assert app.get("/wall", Cookie=f"treestead={name}")[1]["Set-Cookie"].startswith(
        f"treestead={name};"
    )
    for odd in ("../../etc", "short", "a" * 65):
        assert odd not in app.get("/wall", Cookie=f"treestead={odd}")[1]["Set-Cookie"]


@pytest.mark.parametrize(
    "path",
    [
        "/static/../../../../../../etc/passwd",
        "/static/..%2f..%2f..%2f..%2f..%2f..%2fetc%2fpasswd",
        "/static/extensions/panel/..%2f..%2f..%2f..%2f..%2fetc%2fpasswd",
        "/static//etc/passwd",
        "/join/static/..%2fhandlers.py",
        "/join/static/../handlers.py",
        "/components/dashboard.app/DEMOS/css/x",
        "/components/os/path/_css/..%2f..%2fetc%2fpasswd",
        "/%2e%2e/%2e%2e/etc/passwd",
    ],
)
def test_no_address_leads_to_a_file_of_the_machine(app, path):
    status, _headers, text = app.get(path)
    assert status in (400, 403, 404)
    assert "root:" not in text
    assert "import" not in text
