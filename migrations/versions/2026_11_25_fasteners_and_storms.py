"""Fasteners through a layer, storms over an opening."""

import sqlalchemy as sa
from alembic import op

revision = "5b0e3f7a91c4"
down_revision = "12042f5856fe"
branch_labels = None
depends_on = None

_ADDED = {
    "layers": tuple(
        f"fasteners_{name}" for name in ("per_area", "diameter", "cross_section", "recess")
    ),
    **dict.fromkeys(("assemblies", "components", "changes"), ("storm_u_value",)),
}
_PARTS = {"typed": sa.Text(), "value": sa.Float(53), "basis": sa.String(length=8)}


def upgrade() -> None:
    """To this revision."""
    material = sa.Column("fasteners__material", sa.String(length=200), nullable=True)
    op.add_column("layers", material)
    for table, quantities in _ADDED.items():
        for quantity in quantities:
            for part, sort in _PARTS.items():
                op.add_column(table, sa.Column(f"{quantity}_{part}", sort, nullable=True))


def downgrade() -> None:
    """From this revision."""
    for table, quantities in _ADDED.items():
        for quantity in quantities:
            for part in _PARTS:
                op.drop_column(table, f"{quantity}_{part}")
    op.drop_column("layers", "fasteners__material")
