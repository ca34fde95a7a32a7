package counter

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// ledger is a kit and a catalog with everything found by its ID at once.
type ledger struct {
	kit     fieldkit.Kit // finds its own parts and positions
	systems map[string]fieldkit.Assembly
	rigs    map[string]fieldkit.Rig
	donors  map[string]fieldkit.Donor
	kinds   map[string]fieldkit.PartKind
	stores  map[string]fieldkit.StoreKind
}

func openLedger(kit fieldkit.Kit, cat fieldkit.Catalog) *ledger {
	l := &ledger{
		kit:     kit,
		systems: byKey(kit.Systems), rigs: byKey(kit.Rigs), donors: byKey(kit.Donors),
		kinds: map[string]fieldkit.PartKind{}, stores: map[string]fieldkit.StoreKind{},
	}
	for _, k := range cat.PartKinds {
		l.kinds[k.ID] = k
	}
	for _, s := range cat.Stores {
		l.stores[s.ID] = s
	}
	return l
}

func byKey[T fieldkit.Record](list []T) map[string]T {
	found := make(map[string]T, len(list))
	for _, r := range list {
		found[r.Key()] = r
	}
	return found
}

// rigOf gives the rig a position sits on; a zero rig if the kit does not say.
func (l *ledger) rigOf(p fieldkit.Position) fieldkit.Rig {
	return l.rigs[l.systems[p.System].Rig]
}

// kindOf gives the kind of a part, or of what belongs at the position if no part is
// known there.
func (l *ledger) kindOf(part fieldkit.Part, at fieldkit.Position) fieldkit.PartKind {
	if k, ok := l.kinds[part.Kind]; ok {
		return k
	}
	return l.kinds[at.Kind]
}

// partName gives what people call a part.
func (l *ledger) partName(id string) string {
	p, ok := l.kit.Part(id)
	switch {
	case !ok:
		return id
	case p.Name != "":
		return p.Name
	}
	if kind := l.kinds[p.Kind].Name; kind != "" {
		return kind
	}
	return id
}

// sameName compares names of measurements as people write them.
func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// reading finds what was measured for an attribute: on a new part rather than a worn
// one, then the latest.
func reading(p fieldkit.Part, name string) (best fieldkit.Measurement, ok bool) {
	for _, m := range p.Measurements {
		if !sameName(m.Name, name) || m.Value.IsZero() {
			continue
		}
		if !ok || best.Worn && !m.Worn || best.Worn == m.Worn && best.On.Before(m.On) {
			best, ok = m, true
		}
	}
	return best, ok
}
