"""Price books, regions and offers."""

import sqlalchemy as sa
from alembic import op

revision = "12042f5856fe"
down_revision = "47040ffb1714"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To this revision."""
    op.create_table(
        "price_books",
        sa.Column("firm_key", sa.String(length=32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("by", sa.String(length=200), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["firm_key"], ["firms.key"], name=op.f("fk_price_books_firm_key")),
        sa.PrimaryKeyConstraint("firm_key", "version", name=op.f("pk_price_books")),
    )
    op.create_table(
        "regions",
        sa.Column("firm_key", sa.String(length=32), nullable=False),
        sa.Column("key", sa.String(length=40), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("by", sa.String(length=200), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["firm_key"], ["firms.key"], name=op.f("fk_regions_firm_key")),
        sa.PrimaryKeyConstraint("firm_key", "key", "version", name=op.f("pk_regions")),
    )
    op.create_table(
        "offers",
        sa.Column("key", sa.String(length=32), nullable=False),
        sa.Column("firm_key", sa.String(length=32), nullable=False),
        sa.Column("house_key", sa.String(length=32), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("by", sa.String(length=200), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("opened_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.ForeignKeyConstraint(
            ["firm_key", "house_key"],
            ["houses.firm_key", "houses.key"],
            name=op.f("fk_offers_firm_key_house_key"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_offers")),
        sa.UniqueConstraint(
            "firm_key", "house_key", "number", name=op.f("uq_offers_firm_key_house_key_number")
        ),
        sa.UniqueConstraint("firm_key", "key", name=op.f("uq_offers_firm_key_key")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_offers_token_hash")),
    )
    op.create_table(
        "offer_answers",
        sa.Column("key", sa.String(length=32), nullable=False),
        sa.Column("firm_key", sa.String(length=32), nullable=False),
        sa.Column("offer_key", sa.String(length=32), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("choice", sa.String(length=200), nullable=False),
        sa.Column("question", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["firm_key", "offer_key"],
            ["offers.firm_key", "offers.key"],
            name=op.f("fk_offer_answers_firm_key_offer_key"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_offer_answers")),
    )
    with op.batch_alter_table("offer_answers", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_offer_answers_firm_key_offer_key"),
            ["firm_key", "offer_key"],
            unique=False,
        )


def downgrade() -> None:
    """Back from it."""
    with op.batch_alter_table("offer_answers", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_offer_answers_firm_key_offer_key"))

    op.drop_table("offer_answers")
    op.drop_table("offers")
    op.drop_table("regions")
    op.drop_table("price_books")
