package spares

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// maxSteps bounds the search for a way to share a list out.
const maxSteps = 20_000

// boundsOf are the limits of a trip's list as a whole: its own, and what the rigs carry
// together where each of them has a limit.
func boundsOf(trip fieldkit.Trip) fieldkit.Limits {
	l := trip.Limits
	mass, volume := fieldkit.Mass(0), fieldkit.Volume(0)
	rigs := rigsOf(trip)
	massBound, volumeBound := len(rigs) > 0, len(rigs) > 0
	for _, id := range rigs {
		c := trip.CarriesOf(id)
		massBound, volumeBound = massBound && c.Mass > 0, volumeBound && c.Volume > 0
		mass, volume = plus(mass, c.Mass), plus(volume, c.Volume)
	}
	if massBound && (l.Mass <= 0 || mass < l.Mass) {
		l.Mass = mass
	}
	if volumeBound && (l.Volume <= 0 || volume < l.Volume) {
		l.Volume = volume
	}
	return l
}

// carried reports whether some rig of a trip can carry one piece of an article.
func carried(trip fieldkit.Trip, a article) bool {
	rigs := rigsOf(trip)
	return len(rigs) == 0 || slices.ContainsFunc(rigs, func(id string) bool {
		h := hold{Carries: trip.CarriesOf(id)}
		return h.takes(a.mass, a.volume)
	})
}

// hold is what one rig carries and may carry.
type hold struct {
	fieldkit.Carries
	mass   fieldkit.Mass
	volume fieldkit.Volume
}

// takes reports whether there is room.
func (h *hold) takes(mass fieldkit.Mass, volume fieldkit.Volume) bool {
	return (h.Mass <= 0 || plus(h.mass, mass) <= h.Mass) && (h.Volume <= 0 || plus(h.volume, volume) <= h.Volume)
}

// room is the share of the scarcer limit that is free, all of it without a limit.
func (h *hold) room() float64 {
	free := 1.0
	if h.Mass > 0 {
		free = min(free, 1-float64(h.mass)/float64(h.Mass))
	}
	if h.Volume > 0 {
		free = min(free, 1-float64(h.volume)/float64(h.Volume))
	}
	return free
}

// burden is one line to be carried.
type burden struct {
	line   int
	mass   fieldkit.Mass
	volume fieldkit.Volume
	likes  string // the rig it would best ride on
	size   float64
}

// shareOut gives each line the rig that carries it, where rigs have limits: that of its
// bin or of its usual place, else the one it is used on most, else one with room. What is
// packed stays on its rig, and takes its room first. It returns the lines for which there
// was none.
func (m *model) shareOut(lines []fieldkit.PackLine) (over []int) {
	p, limited := m.placing(lines)
	if !limited || p.place(0) {
		return nil
	}
	return p.cram()
}

// placing prepares the search for a rig for each line; limited is false if no rig has
// limits.
func (m *model) placing(lines []fieldkit.PackLine) (p placing, limited bool) {
	var holds []*hold
	for _, id := range rigsOf(m.trip) {
		h := &hold{Carries: m.trip.CarriesOf(id)}
		limited = limited || h.Mass > 0 || h.Volume > 0
		holds = append(holds, h)
	}
	for i := range lines {
		if !slices.ContainsFunc(holds, func(h *hold) bool { return h.Rig == lines[i].Rig }) {
			lines[i].Rig = ""
		}
	}
	if p = (placing{holds: holds, lines: lines, turn: m.turn}); !limited {
		return p, false
	}
	for _, b := range m.burdens(lines) {
		h := slices.IndexFunc(holds, func(h *hold) bool { return h.Rig == b.likes })
		if !lines[b.line].Packed || h < 0 {
			p.burdens = append(p.burdens, b)
			continue
		}
		holds[h].mass, holds[h].volume = plus(holds[h].mass, b.mass), plus(holds[h].volume, b.volume)
		lines[b.line].Rig = b.likes
	}
	return p, true
}

// burdens are the lines as what they weigh and fill, the largest first.
func (m *model) burdens(lines []fieldkit.PackLine) (list []burden) {
	bins, limits := binsOf(m.kit, m.trip), boundsOf(m.trip)
	for i, line := range lines {
		a := m.article(RefOf(line))
		b := burden{line: i, mass: times(a.mass, line.Count), volume: times(a.volume, line.Count), likes: line.Rig}
		if n := binNamed(bins, line.Bin); n >= 0 {
			b.likes = bins[n].Rig
		} else if n := binNamed(bins, a.bin); n >= 0 && b.likes == "" {
			b.likes = bins[n].Rig
		}
		if b.likes == "" {
			b.likes = m.usedOn(RefOf(line))
		}
		if limits.Mass > 0 {
			b.size = float64(b.mass) / float64(limits.Mass)
		}
		if limits.Volume > 0 {
			b.size = max(b.size, float64(b.volume)/float64(limits.Volume))
		}
		list = append(list, b)
	}
	order.By(list, func(a, b burden) int {
		return cmp.Or(cmp.Compare(b.size, a.size), cmp.Compare(b.mass, a.mass), a.line-b.line)
	})
	return list
}

// placing is the search for a rig for every line: the largest first, each where it likes
// to be before where the most room is, and back where that leads nowhere.
type placing struct {
	holds   []*hold
	lines   []fieldkit.PackLine
	burdens []burden
	steps   int
	turn    func()
}

// sure reports that the search was not given up: if it found no way, there is none.
func (p *placing) sure() bool { return p.steps <= maxSteps }

func (p *placing) place(k int) bool {
	if k == len(p.burdens) {
		return true
	}
	b := p.burdens[k]
	for _, h := range p.holdsFor(b) {
		if p.steps++; !p.sure() {
			return false
		}
		if p.steps%statesInTurn == 0 {
			p.turn()
		}
		if !h.takes(b.mass, b.volume) {
			continue
		}
		mass, volume := h.mass, h.volume
		h.mass, h.volume = plus(mass, b.mass), plus(volume, b.volume)
		if p.lines[b.line].Rig = h.Rig; p.place(k + 1) {
			return true
		}
		h.mass, h.volume = mass, volume
	}
	return false
}

// cram puts each where there is room, and names what finds none.
func (p *placing) cram() (over []int) {
	for _, b := range p.burdens {
		rigs := p.holdsFor(b)
		i := slices.IndexFunc(rigs, func(h *hold) bool { return h.takes(b.mass, b.volume) })
		if i < 0 {
			i, over = 0, append(over, b.line)
		}
		h := rigs[i]
		h.mass, h.volume = plus(h.mass, b.mass), plus(h.volume, b.volume)
		p.lines[b.line].Rig = h.Rig
	}
	return over
}

func (p *placing) holdsFor(b burden) []*hold {
	list := slices.Clone(p.holds)
	order.By(list, func(x, y *hold) int {
		return cmp.Or(first(x.Rig == b.likes, y.Rig == b.likes), cmp.Compare(y.room(), x.room()), cmp.Compare(x.Rig, y.Rig))
	})
	return list
}

// aboard says of each line that lies in no bin which rig carries it: where nothing else
// is said, the one it is used on most.
func (m *model) aboard(lines []fieldkit.PackLine) {
	rigs := rigsOf(m.trip)
	for i := range lines {
		l := &lines[i]
		switch {
		case l.Bin != "":
			l.Rig = "" // the bin says it
		case l.Rig == "":
			if l.Rig = m.usedOn(RefOf(*l)); l.Rig == "" && len(rigs) > 0 {
				l.Rig = rigs[0]
			}
		}
	}
}

// usedOn is the rig on whose positions most failures are expected that a spare mends,
// none for what is no spare.
func (m *model) usedOn(ref Ref) (rig string) {
	item, ok := m.index[ref]
	if !ok {
		return ""
	}
	rate, most := map[string]float64{}, 0.0
	for d, pl := range m.places {
		for _, r := range m.demands[d].reach {
			if r.item == item {
				rate[pl.rig.ID] += m.demands[d].rate
			}
		}
	}
	for _, id := range rigsOf(m.trip) {
		if rate[id] > most {
			rig, most = id, rate[id]
		}
	}
	return rig
}
