"""What bodies look like: checked on the way in, written into the OpenAPI document on the way out."""
