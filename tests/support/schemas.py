"""YAML files as an editor that knows their schema reads them."""

import yaml


def as_editors_read(text):
    """A file as an editor's schema check reads it: dates and the plain words yes and no stay text."""

    class Loader(yaml.SafeLoader):
        yaml_implicit_resolvers = {
            first: [(tag, regexp) for tag, regexp in found if not tag.endswith((":timestamp", ":bool"))]
            for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
        }

    return yaml.load(text, Loader)
