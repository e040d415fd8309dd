"""The committed manifests: a line for each digest of each file of a spec, and how they differ from what is made now."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from tests.oracle.digests import Digests, exact, ghostscript, poppler, rendered
from tests.oracle.making import HERE

EXPECTED = HERE / "expected"


@dataclass(frozen=True, slots=True)
class Manifest:
    """The digests that are held for one spec, and the versions of what rendered pages and plates."""

    poppler: str = ""
    ghostscript: str = ""
    digests: Digests = field(default_factory=dict)

    def of(self, name: str) -> Digests:
        """The digests of one file."""
        return {key: digest for key, digest in self.digests.items() if key[0] == name}

    @property
    def exact(self) -> Digests:
        """The digests that need no renderer."""
        return {key: digest for key, digest in self.digests.items() if key[1] in ("bytes", "pixels", "objects")}


def path_of(spec: Path) -> Path:
    """Where the manifest of a spec is kept."""
    return EXPECTED / f"{spec.stem}.txt"


def read_manifest(spec: Path) -> Manifest:
    """The manifest of a spec, an empty one where there is none."""
    path = path_of(spec)
    if not path.is_file():
        return Manifest()
    head, *lines = path.read_text(encoding="utf-8").splitlines()
    words = head.split()
    found: Digests = {}
    for line in lines:
        name, kind, digest = line.split("; ")
        found[name, kind] = digest
    return Manifest(words[2], words[4], found)


def write_manifest(spec: Path, manifest: Manifest) -> None:
    """Keep a manifest."""
    lines = [f"# poppler {manifest.poppler} ghostscript {manifest.ghostscript}"]
    lines += [f"{name}; {kind}; {digest}" for (name, kind), digest in sorted(manifest.digests.items(), key=_in_order)]
    path_of(spec).parent.mkdir(exist_ok=True)
    path_of(spec).write_text("\n".join(lines) + "\n", encoding="utf-8")


def _in_order(line: tuple[tuple[str, str], str]) -> tuple[str, list[tuple[int, str]]]:
    """By file, then by kind, numbers in kinds as numbers: page 2 before page 10."""
    (name, kind), _ = line
    return name, [(int(word), "") if word.isdigit() else (0, word) for word in kind.split()]


def missing_renderer(held: Manifest) -> str:
    """Why rendered digests cannot be held against a manifest here, '' where they can."""
    for name, here, then in (("poppler", poppler(), held.poppler), ("Ghostscript", ghostscript(), held.ghostscript)):
        if not here:
            return f"there is no {name} here"
        if here != then:
            return f"{name} is {here} here, the digests are of {then}"
    return ""


def differences(held: Manifest, files: dict[str, bytes]) -> list[str]:
    """How the files of a spec differ from what is held, one sentence a file."""
    now = exact(files)
    told = [f"{name}: {kind}: is not held" for name, kind in sorted(now.keys() - held.exact.keys())]
    told += [f"{name}: {kind}: is not made any more" for name, kind in sorted(held.exact.keys() - now.keys())]
    for key in sorted(now.keys() & held.exact.keys()):
        if now[key] != held.exact[key]:
            name, kind = key
            told.append(f"{name}: {kind} differ" + (f"; {seen(held, name, files[name])}" if kind == "objects" else ""))
    return told


def seen(held: Manifest, name: str, data: bytes) -> str:
    """Whether a PDF whose objects have changed looks as it did."""
    why = missing_renderer(held)
    if why:
        return f"not rendered: {why}"
    changed = rendered_differences(held, name, data)
    return f"to be seen on {', '.join(changed)}" if changed else "nothing of it can be seen"


def rendered_differences(held: Manifest, name: str, data: bytes) -> list[str]:
    """The pages and plates of a PDF that do not look as they are held."""
    then = {key: digest for key, digest in held.of(name).items() if key not in held.exact}
    now = rendered(name, data)
    return [key[1] for key in sorted(then.keys() | now.keys()) if then.get(key) != now.get(key)]
