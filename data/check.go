package data

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// Bounds on the figures of a catalog; what lies beyond is a slip of the finger.
const (
	maxMass   = 100 * fieldkit.Kilogram
	maxVolume = 250 * fieldkit.Litre
	maxFixing = 3 * 24 * 60 // minutes
	maxLine   = 400         // bytes of a text that is read on one card
)

// isID reports lower-case words joined by dashes.
func isID(s string) bool {
	for _, word := range strings.Split(s, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// checker collects what is wrong with a file of the catalog, by JSON pointer.
type checker struct{ problems []kitfile.Problem }

func (c *checker) note(pointer, what, do string) {
	c.problems = append(c.problems, kitfile.Problem{Pointer: pointer, What: what, Do: do})
}

func (c *checker) text(s, pointer string) {
	switch {
	case strings.TrimSpace(s) == "":
		c.note(pointer, "nothing is written", "write it")
	case len(s) > maxLine:
		c.note(pointer, fmt.Sprintf("a text of %d bytes is longer than the most, %d", len(s), maxLine), "shorten it")
	}
}

// ids checks the IDs of a list, whose entries stand at list/0, list/1 and so on,
// and gives them as a set.
func (c *checker) ids(list string, ids []string) map[string]bool {
	seen := map[string]bool{}
	for i, id := range ids {
		at := fmt.Sprintf("%s/%d/id", list, i)
		if !isID(id) || len(id) > fieldkit.MaxID {
			c.note(at, fmt.Sprintf("%q is not an id", id), "write lower-case words joined by dashes")
		}
		if seen[id] {
			c.note(at, fmt.Sprintf("%q is there twice", id), "give each its own id")
		}
		seen[id] = true
	}
	return seen
}

// words checks a list of different texts that each stand for themselves.
func (c *checker) words(list []string, pointer string) {
	seen := map[string]bool{}
	for i, w := range list {
		at := fmt.Sprintf("%s/%d", pointer, i)
		c.text(w, at)
		if seen[w] {
			c.note(at, fmt.Sprintf("%q is there twice", w), "remove one")
		}
		seen[w] = true
	}
}

// known checks a list of IDs against those there are.
func (c *checker) known(list []string, among map[string]bool, noun, pointer string) {
	c.words(list, pointer)
	for i, id := range list {
		if !among[id] {
			c.note(fmt.Sprintf("%s/%d", pointer, i), fmt.Sprintf("there is no %s %q", noun, id), "add it or correct the id")
		}
	}
}

func (c *checker) carried(m fieldkit.Mass, v fieldkit.Volume, pointer string) {
	if m <= 0 || m > maxMass {
		c.note(pointer+"/mass", fmt.Sprintf("%q is no mass of one piece", m), "write what one piece weighs")
	}
	if v <= 0 || v > maxVolume {
		c.note(pointer+"/volume", fmt.Sprintf("%q is no volume of one piece", v), "write the space one piece takes")
	}
}

func (c *checker) stores(f storesFile) {
	c.text(f.Source, "/source")
	c.ids("/stores", idsOf(f.Stores, func(s fieldkit.StoreKind) string { return s.ID }))
	for i, s := range f.Stores {
		at := fmt.Sprintf("/stores/%d", i)
		c.text(s.Name, at+"/name")
		c.text(s.Has, at+"/has")
		c.text(s.Say, at+"/say")
		c.words(s.By, at+"/by")
		for j, by := range s.By {
			if !slices.Contains(fieldkit.StoreBy, by) {
				c.note(fmt.Sprintf("%s/by/%d", at, j), fmt.Sprintf("no store looks up by %q", by), fmt.Sprintf("write one of %q", fieldkit.StoreBy))
			}
		}
		if len(s.By) == 0 {
			c.note(at, fmt.Sprintf("%q looks nothing up", s.ID), "say by what")
		}
	}
}

func (c *checker) traits(f traitsFile) {
	c.text(f.Source, "/source")
	c.ids("/traits", idsOf(f.Traits, func(t fieldkit.Trait) string { return t.ID }))
	for i, t := range f.Traits {
		at := fmt.Sprintf("/traits/%d", i)
		c.text(t.Name, at+"/name")
		c.text(t.Ask, at+"/ask")
		c.words(t.Options, at+"/options")
		if len(t.Options) < 2 {
			c.note(at+"/options", "a trait without a choice tells rigs not apart", "write two options or more")
		}
	}
}

func (c *checker) tools(f toolsFile) {
	c.text(f.Source, "/source")
	all := c.ids("/toolKinds", idsOf(f.ToolKinds, func(t fieldkit.ToolKind) string { return t.ID }))
	for i, t := range f.ToolKinds {
		at := fmt.Sprintf("/toolKinds/%d", i)
		c.text(t.Name, at+"/name")
		c.known(t.Alternatives, all, "tool", at+"/alternatives")
		for j, other := range t.Alternatives {
			if other == t.ID {
				c.note(fmt.Sprintf("%s/alternatives/%d", at, j), fmt.Sprintf("%q is its own alternative", other), "remove it")
			}
		}
		c.carried(t.Mass, t.Volume, at)
	}
}

func (c *checker) consumables(f consumablesFile, stores storesFile) {
	c.text(f.Source, "/source")
	c.ids("/consumables", idsOf(f.Consumables, func(k fieldkit.ConsumableKind) string { return k.ID }))
	known := storeIDs(stores)
	for i, k := range f.Consumables {
		at := fmt.Sprintf("/consumables/%d", i)
		c.text(k.Name, at+"/name")
		c.known(k.Stores, known, "store", at+"/stores")
		c.carried(k.Mass, k.Volume, at)
	}
}

func idsOf[T any](list []T, id func(T) string) []string {
	ids := make([]string, len(list))
	for i, one := range list {
		ids[i] = id(one)
	}
	return ids
}

func storeIDs(f storesFile) map[string]bool {
	ids := map[string]bool{}
	for _, s := range f.Stores {
		ids[s.ID] = true
	}
	return ids
}
