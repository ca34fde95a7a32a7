package standards

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// Handbook holds the published tables in the form in which designations are looked
// up. It does not change once it is open.
type Handbook struct {
	balls        catalogue[Ball]
	ballSuffixes suffixes
	ballSeries   map[string]string // series to type

	rollers        catalogue[Roller]
	rollerSuffixes suffixes
	rollerForms    map[string]string // NU to what it means

	needles catalogue[Needle]

	tapers        catalogue[TaperMetric]
	taperSuffixes suffixes
	taperSeries   map[string]bool

	sets, halves catalogue[TaperInch]
	orings       catalogue[ORing]
	seals        catalogue[Seal]

	inchThreads   catalogue[InchThread]
	metricThreads catalogue[MetricThread]
	metricLargest fieldkit.Length
	pipeThreads   catalogue[PipeThread]
	grades        []Grade
	bolts         catalogue[Bolt]

	fittings catalogue[Fitting]
	hoses    catalogue[Hose]

	loads  map[string]tyreLoad
	speeds map[string]string
	plies  map[string]int
	wheels catalogue[Wheel]

	ribPitch   map[string]fieldkit.Length
	beltSource string
	ujoints    catalogue[UJoint]
	splines    catalogue[Spline]

	batteries  catalogue[Battery]
	fuses      catalogue[Fuse]
	fuseBodies []string // words for bodies, in capitals
	wires      catalogue[Wire]

	friction, contents map[string]string
	frictionSource     string
	gearOils           map[string]gearGrade
	greases            map[string]Grease
	fluids             catalogue[BrakeFluid]

	grammars []grammar
}

// Open reads the tables. The error names the first table, row and column that does
// not hold what is needed.
func Open(tables Tables) (*Handbook, error) {
	h, o := &Handbook{}, &opener{tables: tables}
	for _, read := range []func(*Handbook){
		o.balls, o.rollers, o.needles, o.tapers, o.sets, o.orings, o.seals,
		o.inchThreads, o.metricThreads, o.pipeThreads, o.grades, o.fittings, o.hoses,
		o.tyres, o.wheels, o.belts, o.ujoints, o.splines, o.batteries, o.fuses, o.wires,
		o.frictions, o.gearOils, o.greases, o.fluids,
	} {
		read(h)
	}
	if o.err != nil {
		return nil, o.err
	}
	h.grammars = h.allGrammars()
	return h, nil
}

// parse reads a whole text with one grammar; what is refused gives nothing.
func parse[D Designation](text string, read func(*scan) (D, *Misread)) (D, error) {
	d, m := parseWhole(text, false, read)
	if m != nil {
		var none D
		return none, m
	}
	return d, nil
}

func parseWhole[D Designation](text string, quiet bool, read func(*scan) (D, *Misread)) (D, *Misread) {
	var none D
	if utf8.RuneCountInString(text) > MaxText {
		return none, &Misread{Text: string([]rune(text)[:MaxText]), Kind: none.Kind(), At: MaxText, Why: "the text is too long for a designation"}
	}
	s := newScan(text)
	s.quiet = quiet
	if s.done() {
		return none, s.misread(none.Kind(), "nothing is written")
	}
	d, m := read(s)
	if m == nil {
		m = s.end(d.Kind())
	}
	if m != nil {
		return none, m
	}
	return d, nil
}

// Reading is one way to understand a text.
type Reading struct {
	Designation Designation
	Listed      bool // a table holds it
	Bare        bool // the text is so short that other things bear it too: 214, FF, 1310
}

// doubt ranks readings: lower is surer.
func (r Reading) doubt() (n int) {
	if !r.Listed {
		n++
	}
	if r.Bare {
		n += 2
	}
	return n
}

// Readings gives every way to understand a text, the surest first; none if there is
// none. It is quick enough to be asked at every key.
func (h *Handbook) Readings(text string) []Reading {
	readings, _ := h.read(text, true)
	return readings
}

// Parse gives every way to understand a text, the surest first. If there is none the
// error is a *Misread of the kind that was meant most likely, with the nearest valid
// designations of all kinds; they take some milliseconds to find.
func (h *Handbook) Parse(text string) ([]Reading, error) {
	readings, refused := h.read(text, false)
	if len(readings) == 0 {
		return nil, h.nearest(text, refused)
	}
	return readings, nil
}

func (h *Handbook) read(text string, quiet bool) (readings []Reading, refused []*Misread) {
	for _, g := range h.grammars {
		d, m := g.read(text, quiet)
		if m != nil {
			refused = append(refused, m)
			continue
		}
		again := func(r Reading) bool { return r.Designation.Kind() == d.Kind() && r.Designation.String() == d.String() }
		if slices.ContainsFunc(readings, again) { // 00000079 is the same number as EAN-8 and as UPC-E
			continue
		}
		readings = append(readings, Reading{d, d.Listed(), g.bare != nil && g.bare(strings.TrimSpace(text))})
	}
	slices.SortStableFunc(readings, func(a, b Reading) int { return a.doubt() - b.doubt() })
	return readings, refused
}

// ParseAs reads a text as a designation of one kind. The error is a *Misread with the
// nearest valid designations of that kind.
func (h *Handbook) ParseAs(kind Kind, text string) (Designation, error) {
	var refused []*Misread
	for _, g := range h.grammars {
		if g.kind != kind {
			continue
		}
		d, m := g.read(text, false)
		if m == nil {
			return d, nil
		}
		refused = append(refused, m)
	}
	if kind == KindVIN { // a number from before 1981 is one only where one is asked for
		if v, err := h.ParseVIN(text); err == nil {
			return v, nil
		}
	}
	if refused == nil {
		return nil, &Misread{Text: text, Kind: kind, Why: fmt.Sprintf("no designations of kind %q are known", kind)}
	}
	return nil, h.nearest(text, refused)
}

// Listed gives all designations of a kind that the tables hold, in their order; none
// for kinds that go by rule alone.
func (h *Handbook) Listed(kind Kind) []Designation {
	for _, g := range h.grammars {
		if g.kind == kind && g.listed != nil {
			return g.listed()
		}
	}
	return nil
}

// Kinds gives the kinds that can be read, in order.
func (h *Handbook) Kinds() []Kind {
	var kinds []Kind
	for _, g := range h.grammars {
		if !slices.Contains(kinds, g.kind) {
			kinds = append(kinds, g.kind)
		}
	}
	return kinds
}
