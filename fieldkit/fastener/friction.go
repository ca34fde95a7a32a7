package fastener

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// Friction is how slippery a bolt and nut are together: the nut factor K of T = K·D·F
// with the range it is found in.
type Friction struct {
	Name   string // "dry"
	Says   string // what a person sees on the bolt
	K      float64
	Low    float64
	High   float64
	Source string
}

// The usual states of a bolt. K is what the published torque tables reckon with, the
// range is what makers of bolts give for the same finish.
var (
	Dry = Friction{"dry", "clean plain steel, no oil", 0.20, 0.18, 0.27,
		"K 0.20 for plain dry bolts: IFI 5th edition N-12, as in published torque guides; range 0.18 to 0.27 for dry steel: read in a bolt maker's engineering data (zipfastener.com)"}
	Oiled = Friction{"oiled", "oil, grease or anti-seize on the thread and under the head", 0.15, 0.10, 0.26,
		"K 0.15 for lubricated bolts: IFI 5th edition N-12, as in published torque guides; range 0.10 to 0.26 for machine oil on steel: read in a bolt maker's engineering data (zipfastener.com)"}
	Zinc = Friction{"zinc", "zinc plated, silver or yellowish, no oil", 0.20, 0.17, 0.35,
		"K 0.20 for zinc plating: common practice; range 0.17 to 0.35: read in a bolt maker's engineering data (zipfastener.com)"}
)

// Frictions are the usual states, the commonest first.
func Frictions() []Friction { return []Friction{Dry, Oiled, Zinc} }

// FrictionNamed finds one of the usual states.
func FrictionNamed(name string) (Friction, bool) {
	for _, f := range Frictions() {
		if strings.EqualFold(f.Name, strings.TrimSpace(name)) {
			return f, true
		}
	}
	return Friction{}, false
}

// Limits of a nut factor: slipperier or rougher is a slip of the keys.
const (
	LeastK = 0.05
	MostK  = 0.60
)

// ownSpread is how far a nut factor a person gives is trusted: a fifth either way
// (common practice for a factor found by trial on the same bolts).
const ownSpread = 0.2

// Own is a nut factor that a person knows for these bolts, from 0.05 to 0.60.
func Own(k float64) (Friction, error) {
	if !(k >= LeastK && k <= MostK) { // not a number is refused too
		return Friction{}, &fieldkit.Error{Kind: fieldkit.BadInput, Where: "nut factor",
			What: fmt.Sprintf("%g is no nut factor", k), Do: fmt.Sprintf("give one from %.2f to %.2f; plain dry steel has 0.20", LeastK, MostK)}
	}
	return Friction{"own", "your own nut factor", k, k * (1 - ownSpread), k * (1 + ownSpread),
		"your own nut factor; a fifth either way: common practice"}, nil
}
