"""The hand-over papers as they come out of a printer and stand in a window.

They are printed by headless Chromium, and the PDF is read with pdfplumber.
"""

from __future__ import annotations

import json
import os
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from wainwright import Build

from .browser import ADVICE, chromium, measure, print_page

BUILDS = Path(__file__).parents[2] / "tests" / "builds"
LETTER_PT = (612, 792)
# Words of a page stand within these, the foot included.
MARGIN_PT = 50
FOOT_PT = 20

pytestmark = pytest.mark.skipif(
    os.environ.get("WAINWRIGHT_NO_CHROMIUM") == "1", reason="WAINWRIGHT_NO_CHROMIUM asks for it"
)


def crowded() -> dict[str, Any]:
    """Heron with 60 more parts of long names, a long name of its own, and hard letters."""
    build: dict[str, Any] = json.loads((BUILDS / "heron.json").read_text(encoding="utf-8"))
    build["name"] = "W" * 60 + " <b>& 'Heron'</b> " + "long name " * 12
    for i in range(60):
        build["parts"][f"p{i:02}_" + "W" * 60] = {"mass_lb": 1 + i, "x_in": 40 + 3 * i, "z_in": 20 + i}
    build["cargo"]["a" * 64] = {"mass_lb": 5, "x_in": 150}
    return build


def bare() -> dict[str, Any]:
    """A build that has too little for most questions, and no states."""
    return {"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}


def document(name: str) -> dict[str, Any]:
    if name in ("crowded", "bare"):
        return {"crowded": crowded, "bare": bare}[name]()
    build: dict[str, Any] = json.loads((BUILDS / f"{name}.json").read_text(encoding="utf-8"))
    return build


@pytest.fixture(scope="module", params=["heron", "pika", "bison", "crowded", "bare"])
def papers(request: pytest.FixtureRequest) -> tuple[str, str]:
    assert chromium() is not None, ADVICE
    return request.param, Build.from_dict(document(request.param)).papers()


@pytest.fixture(scope="module")
def pdf(papers: tuple[str, str], tmp_path_factory: pytest.TempPathFactory) -> Any:
    folder = tmp_path_factory.mktemp("print")
    page = folder / "papers.html"
    page.write_text(papers[1], encoding="utf-8")
    print_page(page, folder / "papers.pdf")
    with pdfplumber.open(folder / "papers.pdf") as printed:
        yield printed


def test_pages_are_us_letter_and_as_many_as_can_be_read(papers: tuple[str, str], pdf: Any) -> None:
    assert {(round(page.width), round(page.height)) for page in pdf.pages} == {LETTER_PT}
    least, most = (4, 9) if papers[0] == "bare" else (12, 32)
    assert least <= len(pdf.pages) <= most
    assert all(page.extract_words() for page in pdf.pages)


def test_words_stand_within_the_margins_and_none_on_another(pdf: Any) -> None:
    for page in pdf.pages:
        words = page.extract_words(use_text_flow=True, keep_blank_chars=False)
        for word in words:
            inside = word["x0"] >= MARGIN_PT and word["x1"] <= page.width - MARGIN_PT
            inside = inside and word["top"] >= MARGIN_PT - 8 and word["bottom"] <= page.height - FOOT_PT
            assert inside, (page.page_number, word["text"])
        words.sort(key=lambda word: word["top"])
        for i, one in enumerate(words):
            for other in words[i + 1 :]:
                if other["top"] >= one["bottom"] - 2.5:
                    break
                apart = one["x1"] <= other["x0"] + 0.6 or other["x1"] <= one["x0"] + 0.6
                assert apart, (page.page_number, one["text"], other["text"])


def test_nothing_is_smaller_than_can_be_read(pdf: Any) -> None:
    sizes = [char["size"] for page in pdf.pages for char in page.chars]
    assert min(sizes) >= 8.99
    body = sum(size >= 9.99 for size in sizes)
    assert body > 0


def test_no_heading_stands_alone_at_the_foot_of_a_page(pdf: Any) -> None:
    for page in pdf.pages:
        # The last line above the foot of the page.
        lines = [line for line in page.extract_text_lines() if line["bottom"] < page.height - 55]
        last = max(lines, key=lambda line: line["bottom"])
        sizes = {round(char["size"], 1) for char in last["chars"]}
        assert not sizes & {11.5, 16.0, 21.0}, (page.page_number, last["text"])


@pytest.mark.parametrize("width", [360, 400, 1200])
def test_nothing_sticks_out_of_a_window(papers: tuple[str, str], width: int, tmp_path: Path) -> None:
    measured = measure(papers[1], width, tmp_path)
    # A scroll bar may take some of it.
    assert width - 20 <= measured["width"] <= width
    assert measured["faults"] == []
    assert measured["words"] > 0 or papers[0] == "bare"


class Loads(HTMLParser):
    """What a page would load or run."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("script", "link", "img", "iframe", "object", "embed", "image", "use", "a", "base", "form"):
            self.found.append(tag)
        self.found += [name for name, _ in attrs if name.startswith("on") or name in ("src", "href", "style")]


def test_nothing_is_loaded_from_elsewhere(papers: tuple[str, str]) -> None:
    loads = Loads()
    loads.feed(papers[1])
    assert loads.found == []
    style = papers[1][papers[1].index("<style>") : papers[1].index("</style>")]
    assert "url(" not in style
    assert "@import" not in style
