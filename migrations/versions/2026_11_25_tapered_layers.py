"""The thin edge of a layer that tapers."""

import sqlalchemy as sa
from alembic import op

revision = "e81b5c2d90a7"
down_revision = "c3a9d7e1f204"
branch_labels = None
depends_on = None

_PARTS = {"typed": sa.Text(), "value": sa.Float(53), "basis": sa.String(length=8)}


def upgrade() -> None:
    """To this revision."""
    for part, sort in _PARTS.items():
        op.add_column("layers", sa.Column(f"thinnest_{part}", sort, nullable=True))


def downgrade() -> None:
    """From this revision."""
    for part in _PARTS:
        op.drop_column("layers", f"thinnest_{part}")
