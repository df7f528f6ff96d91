"""The HTTP side, under `/api/v1`.

| room | what it answers |
| --- | --- |
| `series`, `projects`, `materials` | the studio's own documents: collections, items, ETags |
| `outlines` | drawings come in, shapes are answered |
| `steps` | the steps of a track, and the maker's own words beside them |
| `shopping` | what to buy, for a project, a month or a series, in any number of kits |
| `batches`, `jobs`, `events` | submit, follow, cancel, retry |
| `artifacts`, `releases` | what was made, and who may have it when |
| `tokens` | keys |

`room.py` makes routes out of functions, `access.py` says who may call them, `problems.py` and `errors.py`
say what is refused and why, `document.py` writes the OpenAPI document.
"""
