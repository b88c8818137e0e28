"""What a written file says of itself, read back by the readers of its format."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET

import ezdxf
import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.export import FORMATS
from elevations.export.stamp import HEAD_BYTES, LONGEST_NAME_BYTES, TAIL_BYTES, shortened, stamp_of, stamped
from tests.export.sample import sample_sheet

JOB = "QL-07, Quillback Lock Cottage (cottage.yaml)"
SVG = b"<?xml version='1.0'?>\n<!-- Drawn by elevations -->\n<svg/>"


@pytest.fixture(scope="module", params=list(FORMATS))
def plain(request):
    return FORMATS[request.param].write(sample_sheet())


def test_the_same_file_and_job_give_the_same_bytes(plain):
    assert stamped(plain, JOB) == stamped(plain, JOB)


def test_the_stamp_is_read_back(plain):
    assert stamp_of(stamped(plain, JOB)) == (JOB, False)
    assert stamp_of(plain) is None


def test_any_changed_byte_is_noticed(plain):
    data = stamped(plain, JOB)
    for at in range(len(data) // 20, len(data), len(data) // 20):
        changed = data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]
        found = stamp_of(changed)
        assert found is None or found.changed or found.job != JOB, at


def test_a_dxf_names_its_job_among_its_properties():
    data = stamped(FORMATS["dxf"].write(sample_sheet()), "QL-07, Häuschen (cottage.yaml)")
    doc = ezdxf.read(io.StringIO(data.decode()))   # ezdxf is the reader from outside
    assert doc.header.custom_vars.properties == [("Job", "QL-07, Häuschen (cottage.yaml)")]
    assert not doc.audit().errors


def test_an_svg_names_its_job_in_its_metadata():
    tree = ET.fromstring(stamped(FORMATS["svg"].write(sample_sheet()), "QL-07 <A & B> (cottage.yaml)"))
    assert tree.findtext("{http://www.w3.org/2000/svg}metadata") == "Job: QL-07 <A & B> (cottage.yaml)"


def test_a_stamped_pdf_is_read_without_repair():
    data = stamped(FORMATS["pdf"].write(sample_sheet()), JOB)
    assert len(pypdf.PdfReader(io.BytesIO(data), strict=True).pages) == 1   # strict: every offset of its table holds
    assert data.rstrip().endswith(b"%%EOF")


def test_a_pdf_names_its_job_among_its_keywords():
    data = stamped(FORMATS["pdf"].write(sample_sheet()), JOB)
    assert pypdf.PdfReader(io.BytesIO(data)).metadata["/Keywords"].strip() == "Job: QL-07, Quillback Lock Cottage cottage.yaml"


@given(st.text(max_size=400))
def test_any_job_name_fits_the_stamp_and_ends_no_comment(job):
    data = stamped(SVG, job)
    ET.fromstring(data)   # an XML parser: '--' in a comment would end it
    assert stamp_of(data) == (shortened(job), False)
    assert len(re.search(rb"<!-- (.*?) -->", data)[1]) < 255


def test_long_names_that_differ_only_at_their_ends_stay_different():
    assert shortened("x" * 400 + "a") != shortened("x" * 400 + "b")
    assert len(shortened("x" * 400).encode()) <= LONGEST_NAME_BYTES


def test_words_of_a_stamp_in_the_middle_of_a_file_make_no_stamp():
    stamp = re.search(rb"<!-- .* -->", stamped(SVG, JOB))[0]
    assert stamp_of(b"x" * HEAD_BYTES + stamp + b"x" * TAIL_BYTES) is None
