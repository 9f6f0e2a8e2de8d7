"""JSON over the same services."""

ABOUT = """
How floors, beams and veneer are carried by insulated concrete form walls: checked, drawn and kept.

Every quantity that is sent is text with its unit (`"9 1/4 in"`, `"235 mm"`, `"12-6 1/2"`, `"40 psf"`); every number that comes
back names its unit in its description. Whoever may do something on the pages may do it here, and sees the same jobs: sign in
with a session, or send `Authorization: Bearer` with a token made on your account's page. Checks of typed numbers need neither.

What can be changed carries a `version`. Send the version you read; where somebody changed it since, the answer is 409 with the
version that is kept now. What was deleted can be brought back. Every refusal has one shape: `error`, a word that stays the same;
`detail`, a sentence; `fields`, what to enter instead, by field. Local code and the authority having jurisdiction govern.
"""
