"""Vents along the walls of a crawlspace."""

import sqlalchemy as sa
from alembic import op

revision = "c3a9d7e1f204"
down_revision = "5b0e3f7a91c4"
branch_labels = None
depends_on = None

_QUANTITIES = ("crawl_vents_opening_area", "crawl_vents_perimeter")
_PARTS = {"typed": sa.Text(), "value": sa.Float(53), "basis": sa.String(length=8)}


def upgrade() -> None:
    """To this revision."""
    for quantity in _QUANTITIES:
        for part, sort in _PARTS.items():
            op.add_column("spaces", sa.Column(f"{quantity}_{part}", sort, nullable=True))
    shielding = sa.Column("crawl_vents__shielding", sa.String(length=10), nullable=True)
    op.add_column("spaces", shielding)


def downgrade() -> None:
    """From this revision."""
    op.drop_column("spaces", "crawl_vents__shielding")
    for quantity in _QUANTITIES:
        for part in _PARTS:
            op.drop_column("spaces", f"{quantity}_{part}")
