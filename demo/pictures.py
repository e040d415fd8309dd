"""Make the pictures that README shows, from the real files: `python demo/pictures.py [PANEL...]`.

Every panel of this folder is made in memory; its pictures are the files of that name, the proof's first sheet and a
label film as pdfium draws them and the cut layer as resvg draws it, no wider than README needs, kept in demo/pictures.
"""

from __future__ import annotations

import io
import re
import sys
from pathlib import Path

import pypdfium2
import resvg_py
from PIL import Image

from panelart.pipeline import build, read, write

HERE = Path(__file__).parent
SHOWN = 1400  # pixels of width


def saved(picture: Image.Image, name: str) -> None:
    """Keep a picture."""
    if picture.width > SHOWN:
        picture = picture.resize((SHOWN, round(picture.height * SHOWN / picture.width)), Image.Resampling.LANCZOS)
    path = HERE / "pictures" / f"{name}.png"
    path.parent.mkdir(exist_ok=True)
    picture.convert("RGB").save(path, optimize=True)
    print(path.relative_to(HERE.parent), f"{path.stat().st_size} bytes")


def panels() -> list[Path]:
    """The specs of this folder, without the part files beside them."""
    return [path for path in sorted(HERE.glob("*.yaml")) if "\npanelart: 1\n" in path.read_text(encoding="utf-8")]


def from_python() -> None:
    """The panel of README's first example in Python, made by that very example."""
    readme = (HERE.parent / "README.md").read_text(encoding="utf-8")
    code = re.findall(r"```python\n(.*?)```", readme, flags=re.DOTALL)[0]
    spec = code[: code.index("result = ")] + "picture = pa.build(pa.load(spec)).files['panel.png']\n"
    names: dict[str, object] = {}
    exec(compile(spec, "README.md", "exec"), names)  # noqa: S102  # what README tells readers to run
    picture = names["picture"]
    assert isinstance(picture, bytes)
    saved(Image.open(io.BytesIO(picture)), "from-python")


def main(names: list[str]) -> None:
    """Make the pictures of the panels named, or of all."""
    if not names or "from-python" in names:
        from_python()
    for spec in panels():
        if names and spec.stem not in names:
            continue
        files = write(build(read(spec)), date="2026-01-31")
        saved(Image.open(io.BytesIO(files["panel.png"])), spec.stem)
        if "overlay.pdf" in files:
            film = pypdfium2.PdfDocument(files["overlay.pdf"])[0].render(scale=120 / 72).to_pil()
            saved(film, f"{spec.stem}-overlay")
        if spec.stem == "bench-supply":
            sheet = pypdfium2.PdfDocument(files["proof.pdf"])[0].render(scale=120 / 72).to_pil()
            saved(sheet, f"{spec.stem}-proof")
            cuts = resvg_py.svg_to_bytes(svg_string=files["cutouts.svg"].decode("utf-8"), dpi=130, background="white")
            saved(Image.open(io.BytesIO(bytes(cuts))), f"{spec.stem}-cutouts")


if __name__ == "__main__":
    main(sys.argv[1:])
