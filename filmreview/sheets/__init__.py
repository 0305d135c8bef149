"""The findings sheet that is handed over.

In: a review with its findings, and the films' pictures. Out: a workbook. Nothing is decided here. Read `handover` first.
"""
