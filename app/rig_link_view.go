package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// linkRow is one link of a part, as seen from that part.
type linkRow struct {
	link  fieldkit.Link
	part  string // the part it is seen from
	other fieldkit.Part
	says  string
}

// linksOf lists the links a part has of its own, in file order; what follows from
// them by a chain is not among them.
func linksOf(k fieldkit.Kit, part string) []linkRow {
	var list []linkRow
	for _, l := range k.Links.Refs() {
		if l.For != part && l.With != part {
			continue
		}
		other, _ := k.Part(otherEnd(*l, part))
		says := []string{string(l.Grade)}
		if l.Grade == fieldkit.OneWay && l.For == part {
			says = append(says, "it takes the place of this one")
		} else if l.Grade == fieldkit.OneWay {
			says = append(says, "this one takes its place")
		}
		says = append(says, l.Changes...)
		list = append(list, linkRow{*l, part, other, strings.Join(append(says, string(l.Evidence)), " · ")})
	}
	return list
}

func otherEnd(l fieldkit.Link, part string) string {
	if l.For == part {
		return l.With
	}
	return l.For
}

// linkList draws the links of a part, each to be changed.
func linkList(rows []linkRow, position string) app.UI {
	if len(rows) == 0 {
		return emptyLine("No interchange yet. Add one when you learn of it, with how sure it is.")
	}
	return app.Ul().Class("list").Body(app.Range(rows).Slice(func(i int) app.UI {
		r := rows[i]
		return openRow(link("/rig/link/edit", "id", r.link.ID, "part", r.part, "position", position), r.other.Name, r.says, "")
	}))
}

// linkSays puts a link into words, both directions of it.
func linkSays(l fieldkit.Link, name func(part string) string) string {
	wanted, with := name(l.For), name(l.With)
	switch l.Grade {
	case fieldkit.DropIn:
		return fmt.Sprintf("“%s” goes in place of “%s” as it is, and the other way round.", with, wanted)
	case fieldkit.WithChanges:
		return fmt.Sprintf("“%s” goes in place of “%s” with the changes below, and the other way round.", with, wanted)
	case fieldkit.OneWay:
		return fmt.Sprintf("“%s” goes in place of “%s”. The other way round it does not.", with, wanted)
	case fieldkit.DoesNotFit:
		return fmt.Sprintf("“%s” and “%s” do not go in place of each other, whatever other interchange says.", with, wanted)
	}
	return "Choose how well it fits."
}

// linkWarnings says plainly what speaks against a link before it is saved: another
// kind of part, a link that is there already, a chain that contradicts it.
func linkWarnings(k fieldkit.Kit, cat fieldkit.Catalog, l fieldkit.Link) []string {
	wanted, okFor := k.Part(l.For)
	with, okWith := k.Part(l.With)
	if !okFor || !okWith || l.Grade == "" {
		return nil
	}
	var list []string
	if wanted.Kind != with.Kind && l.Grade != fieldkit.DoesNotFit {
		list = append(list, fmt.Sprintf("These are two kinds of part: “%s” is a %s, “%s” is a %s. Check that it is the part you mean.",
			wanted.Name, kindName(cat, wanted.Kind), with.Name, kindName(cat, with.Kind)))
	}
	for _, other := range k.Links.Refs() {
		if other.ID != l.ID && samePair(*other, l) {
			list = append(list, fmt.Sprintf("There is a link between these two already: %s, %s, %s.", other.Grade, other.Evidence, other.On.Show()))
		}
	}
	return append(list, newContradictions(k, l)...)
}

func kindName(cat fieldkit.Catalog, id string) string {
	if kind, ok := cat.PartKind(id); ok {
		return kind.Name
	}
	return "part of an unknown kind"
}

func samePair(a, b fieldkit.Link) bool {
	return a.For == b.For && a.With == b.With || a.For == b.With && a.With == b.For
}

// newContradictions tells the contradictions that are there with the link and not
// without it.
func newContradictions(k fieldkit.Kit, l fieldkit.Link) []string {
	links, _ := fieldkit.CollectionNamed("links")
	with, without := k, k
	links.Remove(&without, l.ID)
	links.Put(&with, l)
	had := map[string]bool{}
	say := func(c interchange.Contradiction) string { return contradictionSays(c, partNamer(k)) }
	before := interchange.Of(k.Parts, without.Links)
	for _, c := range slices.Concat(before.ContradictionsAround(l.For), before.ContradictionsAround(l.With)) {
		had[say(c)] = true
	}
	var list []string
	for _, c := range interchange.Of(k.Parts, with.Links).ContradictionsAround(l.For) {
		if text := say(c); !had[text] {
			list = append(list, text)
		}
	}
	return list
}

// contradictionSays tells a contradiction in the names people use; the links
// themselves have no name.
func contradictionSays(c interchange.Contradiction, name func(string) string) string {
	source := func(how fieldkit.Evidence, on fieldkit.Date, by string) string {
		return proofWords(&fieldkit.Proof{How: how, On: on, By: by})
	}
	var steps []string
	for _, s := range c.Chain.Chain {
		why := source(s.Evidence, s.On, s.By)
		if s.Standard != "" {
			why = "both bear " + s.Standard
		}
		steps = append(steps, fmt.Sprintf("“%s” in place of “%s” is %s (%s)", name(s.To), name(s.From), s.Grade, why))
	}
	return fmt.Sprintf("Contradiction: “%s” does not fit in place of “%s” (%s). Yet %s. Find out which is wrong and delete it.",
		name(c.Chain.Part), name(c.Wanted()), source(c.Block.Evidence, c.Block.On, c.Block.By), strings.Join(steps, ", and "))
}

// partNamer gives what people call a part; one the kit lacks is called by its ID.
func partNamer(k fieldkit.Kit) func(string) string {
	return func(id string) string {
		if p, ok := k.Part(id); ok {
			return p.Name
		}
		return id
	}
}
