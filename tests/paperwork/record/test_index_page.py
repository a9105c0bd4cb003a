"""The page that leads to the record, read by the standard library's parser: headings, and links below each."""

from __future__ import annotations

from html.parser import HTMLParser

from docgen.paperwork.record.index import index_of


class Outline(HTMLParser):
    """What is read: texts by their tag, links as `text > path`, and which tags are left open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.said: list[tuple[str, str]] = []
        self.open: list[str] = []
        self.to = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag != "meta":
            self.open.append(tag)
        self.to = dict(attrs).get("href") or ""

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip() and self.open[-1] != "style":
            self.said.append((self.open[-1], f"{data} > {self.to}" if self.to else data))
        self.to = ""


def test_it_leads_to_the_whole_then_to_joints_equipment_and_assemblies_each_by_its_name() -> None:
    paths = [
        "record/disconnect-left-root.txt",
        "record/disconnect-disconnect-2.txt",
        "record/equipment-receiver.txt",
        "record/assembly-fuselage.txt",
    ]
    text = index_of("Wren <WR-7>", "record.txt", paths)
    page = Outline(text)
    assert page.said == [
        ("title", "Wren <WR-7>"),
        ("h1", "Wren <WR-7>"),
        ("a", "The whole record > record.txt"),
        ("h2", "Joints"),
        ("a", "left-root > record/disconnect-left-root.txt"),
        ("a", "disconnect-2 > record/disconnect-disconnect-2.txt"),
        ("h2", "Equipment"),
        ("a", "receiver > record/equipment-receiver.txt"),
        ("h2", "Assemblies"),
        ("a", "fuselage > record/assembly-fuselage.txt"),
        ("p", "For model aircraft only, never for aircraft that carry people."),
    ]
    assert page.open == []
    assert text.startswith('<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">\n')
    assert text.endswith("</html>\n")
    assert [text.count(tag) for tag in ("<ul>", "</ul>", "<li>", "</li>")] == [3, 3, 4, 4]


def test_without_parts_it_leads_to_the_whole_alone() -> None:
    assert [tag for tag, _ in Outline(index_of("Wren", "record.txt", [])).said] == ["title", "h1", "a", "p"]
