package measure

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Tool is what a reading is taken with.
type Tool struct {
	Name    string
	Aliases []string
	Within  fieldkit.Length // ± of a length; 0 for tools that take no lengths
	Why     string
}

// How far a reading may be off with each tool. Common practice; a good hand does
// better.
const (
	micrometerWithin = fieldkit.Millimetre / 100     // graduated in hundredths
	caliperWithin    = fieldkit.Millimetre * 5 / 100 // graduated in 0.02 or 0.05 mm, tilted a little in the hand
	ruleWithin       = fieldkit.Millimetre / 2       // half of its finest division
	tapeWithin       = fieldkit.Millimetre           // its hook moves, and it is bent around things
)

// The tools.
var (
	Micrometer  = Tool{"micrometer", []string{"mic", "micrometre"}, micrometerWithin, "graduated in hundredths of a millimetre"}
	Caliper     = Tool{"caliper", []string{"calliper", "calipers", "vernier"}, caliperWithin, "graduated in 0.02 or 0.05 mm, a little tilted in the hand"}
	SteelRule   = Tool{"steel rule", []string{"rule", "ruler", "steel ruler"}, ruleWithin, "half of its finest division"}
	Tape        = Tool{"tape", []string{"tape measure"}, tapeWithin, "its hook moves and it is bent around things"}
	ThreadGauge = Tool{"thread gauge", []string{"pitch gauge", "gauge", "thread pitch gauge"}, 0, "a leaf fits or does not: the pitch is exact"}
	Eye         = Tool{"eye", []string{"counted", "read"}, 0, "seen, counted or read off the part"}
)

// Tools lists the tools.
var Tools = []Tool{Caliper, SteelRule, Tape, ThreadGauge, Micrometer, Eye}

// ToolNamed finds a tool by its name, "steel rule" or "steel-rule"; ok is false if
// there is none.
func ToolNamed(name string) (t Tool, ok bool) {
	folded := strings.NewReplacer("-", " ", "_", " ").Replace(strings.ToLower(strings.TrimSpace(name)))
	for _, t := range Tools {
		if t.Name == folded || slices.Contains(t.Aliases, folded) {
			return t, true
		}
	}
	return Tool{}, false
}

// handlingSlack is how many times its tool's accuracy a reading in the field may be
// off before it counts as not explained: cold hands, dirt and a part that cannot be
// held square (common practice).
const handlingSlack = 2

// pitchWithin is the share by which two pitches differ that a leaf of a thread gauge
// does not tell apart; 18 threads to the inch and 1.4 mm are 0.8 per cent apart and
// can be told over a few threads (common practice).
const pitchWithin = 0.0025
