"""One file a joint family, all of one shape.

Every joint file holds: a frozen record of the maker's choices; a frozen record of the sizes
worked out; `sizes(...)` from one to the other; and `work(...)`, which gives the Worked (cuts,
marks and sums) for both parts, from where the parts stand. The registry below names them.
"""

from __future__ import annotations

REGISTRY: dict[str, str] = {
    "tenon": "layout.joints.tenon",
    "seat": "layout.joints.seat",
}
