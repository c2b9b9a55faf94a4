"""Plans made neat: nothing cut twice, no gaps, the long sections first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layout.cutting.job import Block, Job, Pattern, Section, Strip
from layout.cutting.lay import reach


def without(one: Pattern, items: set[int]) -> Pattern:
    """The pattern without these items."""
    sections = []
    for section in one.sections:
        strips = tuple(strip for strip in section.strips if strip.item not in items)
        if strips:
            sections.append(section._replace(strips=strips))
    return one._replace(sections=tuple(sections))


def thinned(job: Job, patterns: Sequence[Pattern]) -> list[Pattern]:
    """The patterns without what they give beyond what is wanted: it goes from the emptiest beds
    first, and beds that become empty go altogether.
    """
    left = [item.demand for item in job.items]
    kept: list[tuple[int, Pattern]] = []
    for at in sorted(range(len(patterns)), key=lambda at: (-_used(job, patterns[at]), at)):
        one = patterns[at]
        sections = []
        for section in one.sections:
            strips = tuple(_strips(section, left))
            if strips:
                sections.append(section._replace(strips=strips))
        if sections:
            kept.append((at, one._replace(sections=tuple(sections))))
    return [one for _, one in sorted(kept, key=lambda pair: pair[0])]


def _used(job: Job, one: Pattern) -> float:
    """The share of its bed that a pattern uses."""
    bed = job.beds[one.bed]
    used = sum(many * job.items[item].length * job.items[item].width
               for item, many in one.counts.items())
    return used / (bed.length * bed.width)


def _strips(section: Section, left: list[int]) -> list[Strip]:
    """The strips of a section, with no more copies than are left; takes them off."""
    found = []
    for strip in section.strips:
        copies = min(strip.copies, left[strip.item])
        if copies > 0:
            left[strip.item] -= copies
            found.append(strip._replace(copies=copies))
    return found


def tidy(job: Job, one: Pattern) -> Pattern:
    """The pattern with each section as long as its longest strip; and where nothing has to be kept
    out, all of it pushed together, longest sections and widest strips first; else every section
    pushed toward the start, as far as its strips stay clear.
    """
    sections = [section._replace(length=max(reach(strip, job.kerf) for strip in section.strips))
                for section in one.sections]
    bed = job.beds[one.bed].turned if one.turned else job.beds[one.bed]
    if bed.blocks:
        return one._replace(sections=tuple(_pushed(bed.blocks, sections, job.kerf)))
    start, found = 0, []
    for section in sorted(sections, key=lambda each: -each.length):
        low, strips = 0, []
        for strip in sorted(section.strips, key=lambda each: (-each.width, each.item)):
            strips.append(strip._replace(low=low))
            low += strip.width + job.kerf
        found.append(Section(start, section.length, tuple(strips)))
        start += section.length + job.kerf
    return one._replace(sections=tuple(found))


def _pushed(blocks: Sequence[Block], sections: Sequence[Section], kerf: int) -> Iterator[Section]:
    """Sections in their order, each as near to the start as its strips stay clear."""
    free = 0
    for section in sorted(sections, key=lambda each: each.start):
        starts = [free, *(block.end for block in blocks if block.end >= free), section.start]
        start = min(at for at in starts
                    if at <= section.start and _is_clear(blocks, section, at))
        yield section._replace(start=start)
        free = start + section.length + kerf


def _is_clear(blocks: Sequence[Block], section: Section, start: int) -> bool:
    """Would the strips of a section meet no block if it began at `start`."""
    return not any(
        block.start < start + section.length and start < block.end
        and block.low < strip.low + strip.width and strip.low < block.high
        for block in blocks for strip in section.strips)
