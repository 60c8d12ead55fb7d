"""Say which pages of the built site would ask another host for anything; `make docs` fails where one does."""

import re
import sys
from html.parser import HTMLParser
from pathlib import Path

_LOADED = {"src", "srcset", "poster", "data", "xlink:href", "action", "background"}
_OTHER_HOST = re.compile(r"^\s*(https?:)?//", re.IGNORECASE)
_IN_STYLE = re.compile(r"(?:url\(|@import)\s*['\"]?\s*(?:https?:)?//[^)'\"\s]*", re.IGNORECASE)


class Requests(HTMLParser):
    """What a page loads by itself from other hosts; links that a reader follows are none of it."""

    def __init__(self) -> None:
        """Nothing yet."""
        super().__init__()
        self.found: list[str] = []
        self._in_style = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at each attribute that makes a browser load something."""
        self._in_style = tag == "style"
        for name, value in attrs:
            loads = name in _LOADED or (tag, name) in {("link", "href"), ("use", "href"), ("image", "href")}
            if value and ((loads and _OTHER_HOST.match(value)) or (name == "style" and _IN_STYLE.search(value))):
                self.found.append(f"<{tag} {name}={value!r}>")

    def handle_data(self, data: str) -> None:
        """Look at what a style sheet in the page loads."""
        if self._in_style:
            self.found += _IN_STYLE.findall(data)


def outside(site: Path) -> list[str]:
    """Each request to another host, with its page."""
    found = []
    for page in sorted(site.rglob("*.html")):
        requests = Requests()
        requests.feed(page.read_text(encoding="utf-8"))
        found += [f"{page.relative_to(site)}: {request}" for request in requests.found]
    for sheet in sorted(site.rglob("*.css")):
        found += [f"{sheet.relative_to(site)}: {request}" for request in _IN_STYLE.findall(sheet.read_text("utf-8"))]
    return found


if __name__ == "__main__":
    sys.exit("\n".join(outside(Path(sys.argv[1]))) or None)
