"""The pages, one folder each: routes, forms, context."""
