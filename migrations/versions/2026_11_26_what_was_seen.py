"""What was seen, humidity indoors, the energy code, wetness; more of a material."""

import sqlalchemy as sa
from alembic import op

revision = "7d24c6b1e93f"
down_revision = "e81b5c2d90a7"
branch_labels = None
depends_on = None

_PARTS = {"typed": sa.Text(), "value": sa.Float(53), "basis": sa.String(length=8)}
_ANSWERS = tuple(
    f"seen__{name}"
    for name in (
        *("gutters", "ground_slope", "flashing", "below_grade", "crawl_ground_cover"),
        *("termites", "radon", "combustion", "chimney", "wiring", "loose_fill", "asbestos"),
        *("lead_paint", "framing", "plaster", "inside_paint", "veneer_weeps"),
    )
)
_YES_OR_NO = ("seen__flues_through_attic", "seen__beams_in_masonry")
_LIMITS = tuple(
    f"energy_code_{name}"
    for name in (
        *("window", "skylight", "shgc", "ceiling", "frame_wall", "mass_wall", "floor"),
        *("basement_wall", "crawl_wall"),
    )
)
_PLAIN = {
    "houses": {
        **{name: sa.String(length=30) for name in _ANSWERS},
        **{name: sa.Boolean() for name in _YES_OR_NO},
        "indoor_humidity__humidity_class": sa.Integer(),
        "energy_code__edition": sa.String(length=20),
    },
    "house_materials": {
        "reaction_to_fire": sa.String(length=2),
        "material_group": sa.String(length=30),
    },
    "components": {"wetness": sa.String(length=10)},
}
_QUANTITIES = {"houses": _LIMITS, "house_materials": ("compressive_strength",)}


def upgrade() -> None:
    """To this revision."""
    for table, columns in _PLAIN.items():
        for name, sort in columns.items():
            op.add_column(table, sa.Column(name, sort, nullable=True))
    for table, quantities in _QUANTITIES.items():
        for quantity in quantities:
            for part, sort in _PARTS.items():
                op.add_column(table, sa.Column(f"{quantity}_{part}", sort, nullable=True))
    _create_months()


def _create_months() -> None:
    op.create_table(
        "indoor_humidity_months",
        sa.Column("relative_humidity_typed", sa.Text(), nullable=True),
        sa.Column("relative_humidity_value", sa.Float(precision=53), nullable=True),
        sa.Column("relative_humidity_basis", sa.String(length=8), nullable=True),
        sa.Column("firm_key", sa.String(length=32), nullable=False),
        sa.Column("house_key", sa.String(length=32), nullable=False),
        sa.Column("key", sa.String(length=32), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["firm_key", "house_key"],
            ["houses.firm_key", "houses.key"],
            name=op.f("fk_indoor_humidity_months_firm_key_house_key"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint(
            "firm_key", "house_key", "key", name=op.f("pk_indoor_humidity_months")
        ),
    )


def downgrade() -> None:
    """From this revision."""
    op.drop_table("indoor_humidity_months")
    for table, quantities in _QUANTITIES.items():
        for quantity in quantities:
            for part in _PARTS:
                op.drop_column(table, f"{quantity}_{part}")
    for table, columns in _PLAIN.items():
        for name in columns:
            op.drop_column(table, name)
