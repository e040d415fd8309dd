"""Values that say what they are: the base of all nouns, their canonical bytes, and a digest of these.

Two values have the same bytes only if they print the same: 1, 1.0 and True differ, 0.0 and -0.0 too, which `==` and
`hash` hold for equal, and every noun's bytes begin with its class. What a noun worked out and keeps is not in them.
Points and vectors are their two numbers, enumerations their values: what a field holds of these is declared.
"""

from __future__ import annotations

from types import FunctionType
from typing import TYPE_CHECKING, Any, Final

import msgspec

__all__ = ["NotCanonicalError", "Struct", "canonical", "digest"]

if TYPE_CHECKING:
    # Type checkers take a base that is not frozen for the first of a family of nouns that are not.
    from msgspec import Struct
else:

    class Struct(msgspec.Struct, tag=True, tag_field="class", array_like=True):
        """A noun: fields by declaration, told apart by its class in canonical bytes."""


class NotCanonicalError(TypeError):
    """A value of a type whose canonical bytes nobody has told."""


def _plain(value: Any) -> Any:
    """What stands for a value that MessagePack does not know. Raises NotCanonicalError."""
    told = getattr(value, "canonical", None)
    if told is not None:
        return (type(value).__name__, told)
    if hasattr(value, "as_posix"):
        return ("path", value.as_posix())
    if type(value).__module__.startswith("shapely"):
        import shapely

        return ("shape", shapely.to_wkb(value))
    if isinstance(value, FunctionType):
        held = tuple(cell.cell_contents for cell in value.__closure__ or ())
        return ("function", value.__module__, value.__qualname__, value.__code__.co_firstlineno, held)
    if hasattr(value, "dtype") and hasattr(value, "tobytes"):
        return ("array", str(value.dtype), value.shape, value.tobytes())
    raise NotCanonicalError(f"a {type(value).__name__} has no canonical bytes")


_ENCODER: Final = msgspec.msgpack.Encoder(enc_hook=_plain)

SIZE: Final = 16
"""Bytes of a digest: two values that share one by chance are not to be met."""


def canonical(value: object) -> bytes:
    """The canonical bytes of a value: nouns, numbers, texts, bytes, tuples, mappings in their order.

    Raises NotCanonicalError for a value in it that has none.
    """
    return _ENCODER.encode(value)


def digest(value: object) -> bytes:
    """A digest of the canonical bytes. Raises NotCanonicalError."""
    import hashlib

    return hashlib.blake2b(canonical(value), digest_size=SIZE).digest()
