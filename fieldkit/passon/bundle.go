package passon

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Bundle is what is passed on: a small kit.
type Bundle struct {
	Kit fieldkit.Kit
}

// Kind is what a bundle passes on.
type Kind string

const (
	OnePosition Kind = "position"
	OneLink     Kind = "interchange link"
	OneCard     Kind = "counter card"
	Nothing     Kind = ""
)

// Kind says what the bundle passes on. A card is a part with what stands in for it.
func (b Bundle) Kind() Kind {
	switch {
	case b.Kit.Positions.Len() > 0:
		return OnePosition
	case b.Kit.Links.Len() == 1 && b.Kit.Name == string(OneLink):
		return OneLink
	case b.Kit.Parts.Len() > 0:
		return OneCard
	}
	return Nothing
}

// Title names what is passed on: "axle U-joint, left".
func (b Bundle) Title() string {
	switch b.Kind() {
	case OnePosition:
		return b.Kit.Positions.At(0).Title()
	case OneLink:
		l := b.Kit.Links.At(0)
		with, _ := b.Kit.Part(l.With)
		wanted, _ := b.Kit.Part(l.For)
		return fmt.Sprintf("%s in place of %s", with.Name, wanted.Name)
	case OneCard:
		return b.Kit.Parts.At(0).Name
	}
	return ""
}

func begin(from fieldkit.Kit, kind Kind) *gather {
	return &gather{from: from, to: fieldkit.Kit{Format: fieldkit.Format, Version: fmt.Sprintf("%d.%d", fieldkit.MajorVersion, fieldkit.MinorVersion), ID: "passed-on", Name: string(kind), Currency: from.Currency}}
}

// Position is one position with the part fitted there and its donor.
func Position(k fieldkit.Kit, id string) (Bundle, error) {
	p, ok := k.Position(id)
	if !ok {
		return Bundle{}, noSuch("position")
	}
	g := begin(k, OnePosition)
	system, _ := k.System(p.System)
	rig, _ := k.Rig(system.Rig)
	g.to.Rigs = []fieldkit.Rig{{ID: rig.ID, Name: rig.Name}}
	g.to.Systems = []fieldkit.Assembly{{ID: system.ID, Rig: rig.ID, Name: system.Name, Order: system.Order}}
	p.Parent = ""
	g.to.Positions = fieldkit.ListOf([]fieldkit.Position{p})
	g.part(p.Part)
	return g.bundle(), nil
}

// Card is a part as one asks for it: its donor, what stands in for it, and how well.
func Card(k fieldkit.Kit, part string) (Bundle, error) {
	if _, ok := k.Part(part); !ok {
		return Bundle{}, noSuch("part")
	}
	g := begin(k, OneCard)
	g.part(part)
	for _, l := range k.Links.All() {
		if l.For == part || l.With == part {
			g.part(l.For)
			g.part(l.With)
			g.to.Links = g.to.Links.With(l)
		}
	}
	return g.bundle(), nil
}

// Link is one interchange link with its two parts and their donors.
func Link(k fieldkit.Kit, id string) (Bundle, error) {
	l, ok := k.Links.Find(id)
	if !ok {
		return Bundle{}, noSuch("interchange link")
	}
	g := begin(k, OneLink)
	g.part(l.For)
	g.part(l.With)
	g.to.Links = fieldkit.ListOf([]fieldkit.Link{l})
	return g.bundle(), nil
}

// Rigs is whole rigs: systems, positions, the parts fitted and what stands in for
// them, donors, bins, and the spares of these parts that are not in another rig's
// bins. The log stays with the rig's owner: it would count as one's own.
func Rigs(k fieldkit.Kit, ids ...string) Bundle {
	g := begin(k, "")
	g.prices = true
	on := map[string]bool{}
	for _, id := range ids {
		if rig, ok := k.Rig(id); ok && !on[id] {
			on[id] = true
			g.to.Rigs = append(g.to.Rigs, rig)
		}
	}
	systems := map[string]bool{}
	for _, s := range k.Systems {
		if on[s.Rig] {
			systems[s.ID] = true
			g.to.Systems = append(g.to.Systems, s)
		}
	}
	for _, p := range k.Positions.All() {
		if systems[p.System] {
			g.to.Positions = g.to.Positions.With(p)
			g.part(p.Part)
		}
	}
	fitted := map[string]bool{}
	for _, p := range g.to.Parts.All() {
		fitted[p.ID] = true
	}
	for _, l := range k.Links.All() {
		if fitted[l.For] || fitted[l.With] {
			g.part(l.For)
			g.part(l.With)
			g.to.Links = g.to.Links.With(l)
		}
	}
	elsewhere := map[string]bool{}
	for _, b := range k.Bins {
		if on[b.Rig] {
			g.to.Bins = append(g.to.Bins, b)
		} else {
			elsewhere[b.ID] = true
		}
	}
	for _, s := range k.Spares.All() {
		if g.has[s.Part] && !elsewhere[s.Bin] {
			g.to.Spares = g.to.Spares.With(s)
		}
	}
	return g.bundle()
}

// gather collects records and what they refer to.
type gather struct {
	from, to fieldkit.Kit
	has      map[string]bool // parts and donors taken
	prices   bool
}

func (g *gather) part(id string) {
	p, ok := g.from.Part(id)
	if !ok || g.has[id] {
		return
	}
	if g.has == nil {
		g.has = map[string]bool{}
	}
	g.has[id] = true
	if !g.prices {
		p.Price = nil
	}
	g.to.Parts = g.to.Parts.With(p)
	if d, ok := g.from.Donor(p.Donor); ok && !g.has["donor "+d.ID] {
		g.has["donor "+d.ID] = true
		g.to.Donors = append(g.to.Donors, d)
	}
}

// bundle leaves out references to parts that stay behind.
func (g *gather) bundle() Bundle {
	for i := range g.to.Parts.All() {
		p := g.to.Parts.Ref(i)
		p.LookAlikes = append([]fieldkit.LookAlike(nil), p.LookAlikes...)
		for j := range p.LookAlikes {
			if !g.has[p.LookAlikes[j].Part] {
				p.LookAlikes[j].Part = ""
			}
		}
	}
	return Bundle{g.to}
}

func noSuch(what string) error {
	return &fieldkit.Error{Kind: fieldkit.NotFound, What: "there is no such " + what + " in this kit", Do: "it may have been deleted; go back and choose again"}
}
