"""Headless Chromium: prints a page, and measures it in windows of any width."""

from __future__ import annotations

import html
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
ADVICE = (
    "Chromium is needed to see how the papers print; on Debian: apt-get install chromium fonts-dejavu-core. "
    "WAINWRIGHT_CHROMIUM names another program, WAINWRIGHT_NO_CHROMIUM=1 leaves these tests out."
)

# Run inside the page: what sticks out of the window, words of drawings that are cut off or on one another.
MEASURE = """
<script>
addEventListener("load", () => {
  const faults = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) faults.push(`the page is ${root.scrollWidth} wide`);
  for (const one of document.querySelectorAll("body *:not(svg *)")) {
    const cut = one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline";
    const said = `${one.tagName} ${one.className}: ${one.textContent.slice(0, 60)}`;
    if (cut && one.clientWidth > 0) faults.push(said);
    const box = one.getBoundingClientRect();
    if (box.right > root.clientWidth + 1) faults.push(`${one.tagName} ends at ${box.right}`);
  }
  let words = 0;
  for (const svg of document.querySelectorAll("svg")) {
    const sheet = svg.getBoundingClientRect();
    const texts = [...svg.querySelectorAll("text")];
    const boxes = texts.map(text => [text.textContent, text.getBoundingClientRect()]);
    words += boxes.length;
    boxes.forEach(([text, box], i) => {
      const inside = box.left >= sheet.left - 0.5 && box.right <= sheet.right + 0.5
        && box.top >= sheet.top - 0.5 && box.bottom <= sheet.bottom + 0.5;
      if (!inside) faults.push(`cut off: ${text}`);
      for (const [other, space] of boxes.slice(i + 1)) {
        // Boxes hold room above and below the letters, which may meet.
        const high = 0.2 * box.height;
        const apart = box.right <= space.left + 0.5 || space.right <= box.left + 0.5
          || box.bottom - high <= space.top + high || space.bottom - high <= box.top + high;
        if (!apart) faults.push(`on one another: ${text} / ${other}`);
      }
    });
  }
  parent.postMessage(JSON.stringify({width: root.clientWidth, words, faults}), "*");
});
</script>
"""


def chromium() -> str | None:
    """The program, where there is one."""
    named = os.environ.get("WAINWRIGHT_CHROMIUM")
    names = ["chromium", "chromium-browser", "google-chrome", "chrome"]
    return named or next(filter(None, map(shutil.which, names)), None)


def _run(arguments: list[str]) -> str:
    program = chromium()
    assert program is not None, ADVICE
    with tempfile.TemporaryDirectory() as profile:
        command = [program, *FLAGS, f"--user-data-dir={profile}", *arguments]
        return subprocess.run(command, check=True, capture_output=True, text=True, timeout=120).stdout


def print_page(page: Path, pdf: Path) -> None:
    """Prints a page as its own style asks."""
    _run([f"--print-to-pdf={pdf}", "--no-pdf-header-footer", page.as_uri()])


def measure(page: str, width: int, folder: Path) -> dict[str, Any]:
    """What the page is like in a window of this width; in a frame, since no window is so narrow."""
    start, end = page.index('<meta http-equiv="Content-Security-Policy"'), page.index("<title>")
    page = page[:start] + page[end:].replace("</body>", MEASURE + "</body>")
    frame = (
        f'<iframe style="width: {width}px; height: 900px; border: 0" srcdoc="{html.escape(page)}"></iframe>'
    )
    script = """<script>addEventListener("message", said => {
      const result = document.createElement("pre");
      result.textContent = said.data;
      document.body.replaceChildren(result);
    });</script>"""
    holder = folder / f"window_{width}.html"
    holder.write_text(
        f'<!doctype html><html><head><meta charset="utf-8">{script}</head><body>{frame}</body></html>',
        encoding="utf-8",
    )
    said = _run(["--virtual-time-budget=10000", "--dump-dom", holder.as_uri()])
    told = said[said.index("<pre>") + len("<pre>") : said.index("</pre>")]
    measured: dict[str, Any] = json.loads(html.unescape(told))
    return measured
