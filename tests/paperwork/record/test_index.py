"""The page beside the record that leads to its parts, read by the standard library's parser."""

from __future__ import annotations

from html.parser import HTMLParser

from resolved import files_of_example

from docgen.paperwork.record.index import index_of


class Page(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: dict[str, str] = {}
        self.tags: list[str] = []
        self._to = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag == "a":
            self._to = dict(attrs)["href"] or ""

    def handle_data(self, data: str) -> None:
        if self._to:
            self.links[self._to], self._to = data, ""


def test_it_leads_to_the_record_and_each_part_without_a_script() -> None:
    files = files_of_example("fulmar")
    page = Page(files["index.html"].decode())
    texts = {path for path in files if path.endswith(".txt")}
    assert page.links.keys() == texts
    assert page.links["record/disconnect-left-wing-a.txt"] == "left-wing-a"
    assert "script" not in page.tags
    assert b'name="viewport" content="width=device-width' in files["index.html"]


def test_what_the_builder_named_can_not_break_it() -> None:
    page = index_of("<b>&", "record.txt", ["record/equipment-a.txt"])
    assert "<h1>&lt;b&gt;&amp;</h1>" in page
