"""The catalogue: species, rootstocks, cultivars and neighbours, each value with its source."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cached_property

from model.trees.card import CARD, Line, line
from model.trees.option import Option
from model.trees.rows import Rows
from model.trees.value import Source, Value


@dataclass(frozen=True)
class Catalogue:
    """All rows, as read by `read_catalogue`.

    `tables` holds for each of species, rootstocks, cultivars and neighbours its values by key and
    trait. A cultivar's missing value is its species', a rootstock's value for one species goes
    before its general one; `Value.of` and the note say whose value was taken.
    """

    tables: Mapping[str, Rows]
    sources: Mapping[str, Source]

    def value(self, table: str, key: str | tuple[str, ...], trait: str) -> Value | None:
        """The value of a trait, or None where the catalogue has none."""
        rows = self.tables[table]
        parts = (key,) if isinstance(key, str) else tuple(key)
        if table == "rootstocks":
            name, species = (*parts, "")[:2]
            return rows.get(((name, species), trait)) or rows.get(((name, ""), trait))
        own = rows.get((parts, trait))
        if own is not None or table != "cultivars":
            return own
        inherited = self.tables["species"].get(((parts[0],), trait))
        return inherited and replace(
            inherited, note=_joined(f"value of the species, {parts[0]}", inherited.note)
        )

    def species(self) -> tuple[str, ...]:
        """The species' keys, in the catalogue's order."""
        return self._names("species")

    def rootstocks(self) -> tuple[str, ...]:
        """The rootstocks' names, in the catalogue's order."""
        return self._names("rootstocks")

    def neighbours(self) -> tuple[str, ...]:
        """The neighbouring trees' keys, in the catalogue's order."""
        return self._names("neighbours")

    def rootstocks_for(self, species: str) -> tuple[str, ...]:
        """The rootstocks that serve a species."""
        return tuple(name for name in self.rootstocks() if species in self._serves(name))

    def cultivars_of(self, species: str) -> tuple[str, ...]:
        """The cultivars of a species."""
        keys = (key for key, _ in self.tables["cultivars"] if key[0] == species)
        return tuple(dict.fromkeys(key[1] for key in keys))

    def options(self) -> tuple[Option, ...]:
        """Every cultivar on every rootstock it takes on."""
        return self._options

    @cached_property
    def _options(self) -> tuple[Option, ...]:
        return tuple(
            Option(species, cultivar, rootstock)
            for species in self.species()
            for cultivar in self.cultivars_of(species)
            for rootstock in self.rootstocks_for(species)
            if self.takes(cultivar, rootstock)
        )

    def takes(self, cultivar: str, rootstock: str) -> bool:
        """Whether a cultivar takes on a rootstock that serves its species."""
        refused = self.value("rootstocks", rootstock, "incompatible_scions")
        return refused is None or cultivar not in refused.words

    def option(self, species: str, cultivar: str, rootstock: str) -> Option:
        """The option of these names (or their other names); ValueError says what there is."""
        kind = _chosen("species", species, self.species())
        other_names = {
            word: name
            for name in self.cultivars_of(kind)
            for word in self._words("cultivars", (kind, name), "also_called")
        }
        sort = _chosen(f"cultivar of {kind}", cultivar, self.cultivars_of(kind), other_names)
        stock = _chosen(f"rootstock for {kind}", rootstock, self.rootstocks_for(kind))
        if not self.takes(sort, stock):
            fitting = [name for name in self.rootstocks_for(kind) if self.takes(sort, name)]
            raise ValueError(f"{sort} does not take on {stock}: choose from {', '.join(fitting)}")
        return Option(kind, sort, stock)

    def citation(self, value: Value) -> str:
        """A value's source in full: the citations of the sources it names."""
        names = value.source.split()
        if all(name in self.sources for name in names):
            found = (self.sources[name] for name in names)
            return "; ".join(f"{s.citation}, {s.where}" if s.where else s.citation for s in found)
        return value.source

    def card(self, option: Option) -> list[Line]:
        """Everything known of an option: label, value, unit, source and status, in order."""
        keys = {
            "cultivars": (option.species, option.cultivar),
            "rootstocks": (option.rootstock, option.species),
        }
        found = ((trait, table, self.value(table, keys[table], trait)) for table, trait in CARD)
        return [
            line(table, trait, value, self.citation(value))
            for trait, table, value in found
            if value is not None
        ]

    def _names(self, table: str) -> tuple[str, ...]:
        return tuple(dict.fromkeys(key[0] for key, _ in self.tables[table]))

    def _words(self, table: str, key: str | tuple[str, ...], trait: str) -> tuple[str, ...]:
        value = self.value(table, key, trait)
        return value.words if value else ()

    def _serves(self, rootstock: str) -> tuple[str, ...]:
        return self._words("rootstocks", rootstock, "serves")


def _joined(*sentences: str) -> str:
    return "; ".join(sentence for sentence in sentences if sentence)


def _folded(name: str) -> str:
    """A name without regard to capitals, kind of apostrophe, accents of habit or underscores."""
    return name.strip().casefold().replace("\u2019", "'").replace("_", " ")


def _chosen(
    what: str, name: str, names: Iterable[str], other_names: Mapping[str, str] | None = None
) -> str:
    """The catalogue's spelling of a name; ValueError lists what there is."""
    spellings = {_folded(other): own for other, own in (other_names or {}).items()}
    spellings |= {_folded(own): own for own in names}
    if _folded(name) in spellings:
        return spellings[_folded(name)]
    near = get_close_matches(_folded(name), spellings, n=1)
    hint = f"did you mean {spellings[near[0]]}? " if near else ""
    raise ValueError(
        f"no {what} called {name!r} in the catalogue: {hint}there are {', '.join(names)}"
    )
