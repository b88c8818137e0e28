"""What the customer said yes to, kept beside the job, and whether it is still what will be made."""

from __future__ import annotations

from elevations.approval.facts import Fact, fingerprint, product_facts, short
from elevations.approval.record import Approval, approvals_file, read_record
from elevations.approval.state import State, approval_state

__all__ = [
    "Approval", "Fact", "State", "approval_state", "approvals_file", "fingerprint", "product_facts", "read_record", "short",
]
