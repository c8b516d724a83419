"""validate.py SCHEMA < DOCUMENT: exit 1 and the place when the document breaks the JSON Schema."""
import json
import pathlib
import sys

import jsonschema

path = pathlib.Path(sys.argv[1]).resolve()
schema = json.loads(path.read_text())
jsonschema.Draft202012Validator.check_schema(schema)
resolver = jsonschema.RefResolver(path.parent.as_uri() + "/", schema)
validator = jsonschema.Draft202012Validator(schema, resolver=resolver)
errors = sorted(validator.iter_errors(json.load(sys.stdin)), key=lambda e: list(e.path))
for error in errors[:5]:
    print("/" + "/".join(str(p) for p in error.path) + ": " + error.message)
sys.exit(1 if errors else 0)
