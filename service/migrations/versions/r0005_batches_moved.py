"""Plans in which batches are moved or held by hand.

Revision 0005.
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Go on to this revision."""
    with op.batch_alter_table("plan") as batch:
        batch.add_column(sa.Column("moved_from", sa.Uuid(), nullable=True))
        batch.add_column(sa.Column("pins", sa.JSON(), nullable=True))


def downgrade() -> None:
    """Go back to the revision before."""
    with op.batch_alter_table("plan") as batch:
        batch.drop_column("pins")
        batch.drop_column("moved_from")
