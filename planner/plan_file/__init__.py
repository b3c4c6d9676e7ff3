"""The plan file: a planned morning as documented, versioned JSON that programs can verify."""

from planner.plan_file.convert import plan_document
from planner.plan_file.document import PlanDocument

__all__ = ["PlanDocument", "plan_document"]
