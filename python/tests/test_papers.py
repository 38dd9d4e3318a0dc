"""The hand-over papers from Python."""

from wainwright import Build


def test_papers_come_as_html_and_as_markdown() -> None:
    build = Build.from_dict({"name": "<Heron>", "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}})
    html = build.papers()
    assert html.startswith("<!doctype html>")
    assert "<h1>&lt;Heron&gt;</h1>" in html
    text = build.papers(markdown=True)
    assert text.startswith("# \\<Heron\\>\n")
    assert "Not worked out" in html
    assert "Not worked out" in text
