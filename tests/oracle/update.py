"""Writes the manifests anew, knowingly, and tells file by file what has changed, for the commit to give the reason.

python -m tests.oracle.update relay-tray knobs
python -m tests.oracle.update --all
"""

from __future__ import annotations

import sys
from pathlib import Path

from tests.oracle.digests import Digests, exact, ghostscript, poppler, rendered
from tests.oracle.making import made, specs
from tests.oracle.manifest import Manifest, differences, missing_renderer, path_of, read_manifest, write_manifest


def update(spec: Path) -> list[str]:
    """Write the manifest of one spec anew; what has changed. Only what has changed is rendered."""
    held = read_manifest(spec)
    files = made(spec)
    again = missing_renderer(held) != ""
    now: Digests = exact(files)
    for name, data in files.items():
        if not name.endswith(".pdf"):
            continue
        if again or held.digests.get((name, "objects")) != now[name, "objects"]:
            now |= rendered(name, data)
        else:
            now |= held.of(name)
    told = differences(held, files) if held.digests else ["is new"]
    if held.digests and again:
        told.append(f"rendered anew: {missing_renderer(held)}")
    if told:
        write_manifest(spec, Manifest(poppler(), ghostscript(), now))
    return told


def main(words: list[str]) -> int:
    """Update the specs that are named, all with --all; manifests of specs that are gone are taken away."""
    known = {spec.stem: spec for spec in specs()}
    wanted = list(known) if words == ["--all"] else words
    unknown = [word for word in wanted if word not in known]
    if not wanted or unknown:
        print(f"there is no spec {', '.join(unknown)}" if unknown else (__doc__ or ""), file=sys.stderr)
        return 2
    if not (poppler() and ghostscript()):
        print("pdftoppm and gs are needed, to render pages and plates", file=sys.stderr)
        return 2
    for name in wanted:
        told = update(known[name])
        print(f"{name}: {'as it was' if not told else ''}".rstrip(), flush=True)
        for one in told:
            print(f"  {one}")
    if words == ["--all"]:
        for path in sorted(path_of(Path("any")).parent.glob("*.txt")):
            if path.stem not in known:
                path.unlink()
                print(f"{path.stem}: is gone")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
