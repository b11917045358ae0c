"""The page in the browser: its description of the API, its types, its build."""
