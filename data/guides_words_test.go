package data

import (
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// telling lists words that give a hazard away: a step that says them is marked.
var telling = []struct {
	words  *regexp.Regexp
	hazard repair.Hazard
}{
	{regexp.MustCompile(`(?i)\braise (the|one|both)\b|\bjack (up|the)\b|\blower the rig\b`), repair.Lifting},
	{regexp.MustCompile(`(?i)\b(open|hose on) the bleed screw\b|\bbleed every\b|\bpump the (brake )?pedal\b|\bpress as hard\b`), ""}, // brakes or fluid
	{regexp.MustCompile(`(?i)\bstart the engine\b|\bengine on\b`), repair.MovingParts},
	{regexp.MustCompile(`(?i)\bsnap rings? (off|out)\b|\ball (four )?snap rings out\b`), repair.StoredEnergy},
	{regexp.MustCompile(`(?i)\bdrive (\d|a short loop|slowly)\b|\broll at walking pace\b`), repair.Road},
	{regexp.MustCompile(`(?i)\bhammer\b.*\bsockets\b|\bpress (the caps|one cap)\b|\bstrike (the|each|their)\b`), repair.StoredEnergy},
	{regexp.MustCompile(`(?i)\bwith brake cleaner\b`), repair.Harmful},
	{regexp.MustCompile(`(?i)\bnegative( lead)? (back )?(off|on)\b`), repair.Battery},
	{regexp.MustCompile(`(?i)\bopen the cap\b`), repair.Hot},
	{regexp.MustCompile(`(?i)\b(spark plugs|injectors) out\b|\bfuel (clamps|hose over)\b|\btank cap off\b`), repair.Fuel},
	{regexp.MustCompile(`(?i)\bturn the key\b|\bturn the starter\b`), repair.MovingParts},
}

func TestTellingWordsAreMarked(t *testing.T) {
	hits := map[int]int{}
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, s := range g.Steps {
			for i, tell := range telling {
				if !tell.words.MatchString(s.Text) {
					continue
				}
				hits[i]++
				if tell.hazard == "" {
					assert.True(t, slices.Contains(s.Hazards, repair.Brakes) || slices.Contains(s.Hazards, repair.Harmful), "%s: %s", s.ID, s.Text)
					continue
				}
				assert.Contains(t, s.Hazards, tell.hazard, "%s: %s", s.ID, s.Text)
			}
		}
	})
	for i, tell := range telling {
		assert.Positive(t, hits[i], "%s finds nothing any more", tell.words)
	}
}

// What a rig is decides whether it rolls: a full-float axle without its shaft, a
// semi-float one not.
func TestMovementByRig(t *testing.T) {
	for _, c := range []struct {
		guide  string
		traits map[string]string
		roll   repair.Verdict
		drive  repair.Verdict
		after  repair.Verdict
	}{
		{"axle-shaft-rear", map[string]string{"rear-axle": "full-float", "drive": "part-time 4x4"}, repair.May, repair.MayWithin, repair.MayWithin},
		{"axle-shaft-rear", map[string]string{"rear-axle": "full-float", "drive": "rear drive"}, repair.May, repair.MayWithin, repair.MayNot},
		{"axle-shaft-rear", map[string]string{"rear-axle": "semi-float", "drive": "part-time 4x4"}, repair.MayNot, repair.MayNot, repair.MayNot},
		{"axle-shaft-rear", nil, repair.MayNot, repair.MayNot, repair.MayNot},
		{"steering-pump", map[string]string{"brake-boost": "vacuum"}, repair.May, repair.MayWithin, repair.MayWithin},
		{"steering-pump", map[string]string{"brake-boost": "hydraulic"}, repair.MayWithin, repair.MayNot, repair.MayNot},
		{"axle-shaft-front", map[string]string{"front-wheel-bearings": "unit bearing", "front-hub": "unit bearing"}, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"u-joint-axle", map[string]string{"front-hub": "locking hub"}, repair.MayWithin, repair.MayWithin, repair.MayWithin},
		{"u-joint-axle", map[string]string{"front-hub": "drive flange"}, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"tie-rod-end", nil, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"drive-shaft-out", map[string]string{"drive": "rear drive"}, repair.MayWithin, repair.MayNot, repair.MayNot},
		{"ring-and-pinion", map[string]string{"drive": "part-time 4x4", "front-hub": "locking hub"}, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"ring-and-pinion", map[string]string{"drive": "rear drive", "front-hub": "locking hub"}, repair.MayWithin, repair.MayNot, repair.MayNot},
		{"ring-and-pinion", nil, repair.MayWithin, repair.MayNot, repair.MayNot},
		{"steering-ram", map[string]string{"brake-boost": "hydraulic"}, repair.May, repair.MayNot, repair.MayWithin},
		{"steering-ram", map[string]string{"brake-boost": "vacuum"}, repair.May, repair.MayWithin, repair.MayWithin},
		{"brake-fade", nil, repair.MayNot, repair.MayNot, repair.MayWithin},
		{"axle-cover", nil, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"gear-oil-water", nil, repair.May, repair.MayWithin, repair.MayWithin},
		{"coolant-hose", nil, repair.May, repair.MayNot, repair.MayWithin},
		{"belt-tensioner", map[string]string{"belt": "one ribbed belt"}, repair.May, repair.MayNot, repair.MayWithin},
		{"belt-tensioner", map[string]string{"belt": "V-belts"}, repair.May, repair.MayWithin, repair.MayWithin},
		{"fuel-leak", nil, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"water-in-engine", nil, repair.May, repair.MayNot, repair.MayWithin},
		{"spring-or-link", nil, repair.MayWithin, repair.MayNot, repair.MayWithin},
		{"shock-mount", nil, repair.May, repair.MayWithin, repair.MayWithin},
		{"transfer-linkage", nil, repair.MayWithin, repair.MayWithin, repair.MayWithin},
		{"winch", nil, repair.May, repair.May, repair.MayWithin},
		{"roll-over", nil, repair.MayWithin, repair.MayNot, repair.MayWithin},
	} {
		g, ok := repair.Named(Guides(), c.guide)
		require.True(t, ok, c.guide)
		rig := fieldkit.Rig{Traits: c.traits}
		assert.Equal(t, c.roll, g.CanRoll(rig).Verdict, "%s rolls, %v", c.guide, c.traits)
		assert.Equal(t, c.drive, g.CanDrive(rig).Verdict, "%s drives, %v", c.guide, c.traits)
		assert.Equal(t, c.after, g.CanDriveAfterFieldFix(rig).Verdict, "%s drives after its field fix, %v", c.guide, c.traits)
	}
	unknown := fieldkit.Rig{}
	g, _ := repair.Named(Guides(), "axle-shaft-rear")
	assert.Equal(t, []string{"rear-axle"}, g.CanRoll(unknown).Ask)
}

// Plain descriptions find their repair among the first three.
func TestSymptomsFindTheirRepair(t *testing.T) {
	for query, want := range map[string]string{
		"leaf spring snapped and the rear axle shifted back":        "spring-or-link",
		"rig sags at one corner, coil jumped out":                   "spring-or-link",
		"shock broke off its mount and bangs":                       "shock-mount",
		"transfer case lever is loose, no low range":                "transfer-linkage",
		"winch only clicks and will not pull":                       "winch",
		"water pump pulley wobbles":                                 "water-pump",
		"overheats when standing, fine when moving":                 "fan",
		"fuel hose split and it smells of gas":                      "fuel-leak",
		"dead electrics when I turn the key":                        "battery-ground",
		"throttle stuck open, engine races":                         "throttle",
		"howling noise when I turn the steering wheel":              "steering-pump",
		"steering suddenly stiff, fluid sprayed everywhere":         "steering-hose",
		"brake pedal goes to the floor":                             "brake-line",
		"one wheel is hot and smells burned":                        "brake-hose",
		"grinding noise when I brake":                               "brake-pads",
		"wheel wobbles when shaken, rumbling hub":                   "wheel-bearing",
		"growling noise and ABS lamp, anti-lock":                    "unit-bearing",
		"clicking in tight turns from the front wheel":              "u-joint-axle",
		"vibration that gets worse with speed":                      "u-joint-drive-shaft",
		"bang from the rear axle and the wheel comes out":           "axle-shaft-rear",
		"no drive at the front, hub knob will not turn":             "locking-hub",
		"front wheels point in different directions":                "tie-rod-end",
		"drive shaft is bent and hanging down":                      "drive-shaft-out",
		"bang and grinding inside the front axle tube":              "axle-shaft-front",
		"brake hose bulges":                                         "brake-hose",
		"squeak underneath that gets faster with the wheels":        "u-joint-drive-shaft",
		"picked up a nail, tyre slowly going flat":                  "puncture",
		"screw in the tread and it hisses":                          "puncture",
		"rock tore open the side of the tyre":                       "sidewall-cut",
		"bulge in the sidewall after a stone":                       "sidewall-cut",
		"tyre popped off the rim on a side slope with low pressure": "bead-off",
		"a branch tore the valve off and the tyre is flat":          "valve-stem",
		"air leaks at the valve, bubbles when wet":                  "valve-stem",
		"wheel nuts loose and the wheel wobbles":                    "wheel-studs",
		"two studs snapped off and the wheel leans":                 "wheel-studs",
		"one brake drags, wheel smokes and rim is hot":              "brake-caliper",
		"caliper stuck, pulls to one side while rolling":            "brake-caliper",
		"brakes fade on the long downhill":                          "brake-fade",
		"pedal hard but hardly slows after a long descent":          "brake-fade",
		"spongy brake pedal after changing the pads":                "brake-air",
		"brake pedal comes up when I pump it":                       "brake-air",
		"gear oil runs down inside of the rear wheel":               "wheel-seal",
		"grease thrown around inside the tyre, brake soaked":        "wheel-seal",
		"hose of the steering ram burst":                            "steering-ram",
		"assist ram torn off its mount on the tie rod":              "steering-ram",
		"tie rod bent by a rock, steering wheel crooked":            "tie-rod-bent",
		"tie rod snapped in the middle":                             "tie-rod-bent",
		"steering box moves when I turn the wheel":                  "steering-box",
		"frame cracked around the steering box":                     "steering-box",
		"front wheel leans at the top and clunks":                   "ball-joint",
		"violent shake, death wobble, knuckle loose":                "ball-joint",
		"bang and grinding from the differential":                   "ring-and-pinion",
		"differential howls when I press the throttle":              "ring-and-pinion",
		"gear oil pours out of a hole in the differential cover":    "axle-cover",
		"rock dented the axle cover and oil makes a puddle":         "axle-cover",
		"milky gear oil after crossing a river":                     "gear-oil-water",
		"water in the differential after a ford":                    "gear-oil-water",
		"radiator hose burst and steam everywhere":                  "coolant-hose",
		"stick through the radiator, green water drips":             "radiator-hole",
		"coolant drips behind the pulley and the pump growls":       "water-pump",
		"belt squeals and the charge lamp came on":                  "belt-tensioner",
		"gets hot when crawling, electric fan does not turn":        "fan",
		"temperature gauge in the red on a long climb":              "overheating",
		"battery lamp on while driving, headlights dim at idle":     "alternator",
		"starter clicks and the lamps go dim":                       "battery-ground",
		"one loud click, lights stay bright, engine does not turn":  "starter",
		"fuse blows again and again, burnt plastic smell":           "fuse-short",
		"cranks but does not fire, no hum from the fuel tank":       "fuel-pump",
		"I smell petrol, fuel drips from the tank":                  "fuel-leak",
		"engine quit in the ford and now it is locked":              "water-in-engine",
		"we tipped over and the rig is on its side":                 "roll-over",
		"clutch pedal stays on the floor, gears grate":              "clutch-hydraulics",
		"gas pedal falls flat and the engine only idles":            "throttle",
	} {
		matches := repair.BySymptom(Guides(), query)
		var first []string
		for _, m := range matches[:min(3, len(matches))] {
			first = append(first, m.Guide.ID)
		}
		assert.Contains(t, first, want, query)
	}
}
