"""Canadian rules, one module a chapter subject.

Part 9 was read in the provincial texts built on the National Building Code of Canada 2020: Alberta's edition of 2023, Ontario's
O. Reg. 163/24 and British Columbia's amendments of 2024. The CSA standards themselves were not read; the few rules of theirs that
stand here were read in open course notes and an engineer's open tables, and say so.
"""

ALBERTA = "National Building Code, Alberta Edition 2023"
ONTARIO = "Ontario Building Code, O. Reg. 163/24"
BRITISH_COLUMBIA = "British Columbia Building Code 2024"
NBC_2020 = "National Building Code of Canada 2020"
