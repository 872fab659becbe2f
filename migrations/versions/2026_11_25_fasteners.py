"""Fasteners through a layer."""

import sqlalchemy as sa
from alembic import op

revision = "5b0e3f7a91c4"
down_revision = "12042f5856fe"
branch_labels = None
depends_on = None

_QUANTITIES = ("per_area", "diameter", "cross_section", "recess")


def upgrade() -> None:
    """To this revision."""
    with op.batch_alter_table("layers") as layers:
        layers.add_column(sa.Column("fasteners__material", sa.String(length=200), nullable=True))
        for name in _QUANTITIES:
            layers.add_column(sa.Column(f"fasteners_{name}_typed", sa.Text(), nullable=True))
            layers.add_column(sa.Column(f"fasteners_{name}_value", sa.Float(53), nullable=True))
            layers.add_column(
                sa.Column(f"fasteners_{name}_basis", sa.String(length=8), nullable=True)
            )


def downgrade() -> None:
    """From this revision."""
    with op.batch_alter_table("layers") as layers:
        for name in reversed(_QUANTITIES):
            for part in ("basis", "value", "typed"):
                layers.drop_column(f"fasteners_{name}_{part}")
        layers.drop_column("fasteners__material")
