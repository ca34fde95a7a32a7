package data

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func eachGuide(t *testing.T, check func(t *testing.T, g repair.Guide)) {
	t.Helper()
	for _, g := range Guides() {
		t.Run(g.ID, func(t *testing.T) { check(t, g) })
	}
}

func TestGuidesLoad(t *testing.T) {
	guides, err := readGuides()
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(guides), 14)
	assert.True(t, slices.IsSortedFunc(guides, func(a, b repair.Guide) int { return strings.Compare(a.ID, b.ID) }))
	for _, id := range []string{
		"steering-pump", "steering-hose", "brake-line", "brake-hose", "brake-pads", "wheel-bearing", "unit-bearing",
		"u-joint-axle", "u-joint-drive-shaft", "axle-shaft-front", "axle-shaft-rear", "tie-rod-end", "locking-hub", "drive-shaft-out",
	} {
		_, ok := repair.Named(guides, id)
		assert.True(t, ok, id)
	}
	for _, g := range guides {
		n := 0
		for _, h := range guides {
			if h.ID == g.ID {
				n++
			}
		}
		assert.Equal(t, 1, n, "ID %s", g.ID)
	}
}

// Every tool, consumable, part kind, trait and option a repair names is in the
// catalog, and the catalog's own links lead to repairs that do replace the kind.
func TestGuidesAgainstCatalog(t *testing.T) {
	cat := Catalog()
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		assert.Empty(t, repair.CheckCatalog(g, cat))
		for _, kind := range g.PartKinds {
			k, _ := cat.PartKind(kind)
			assert.Contains(t, k.Repairs, g.ID, "the catalog's %s does not name this repair", kind)
		}
		systems := map[string]bool{}
		for _, k := range cat.PartKinds {
			systems[k.System] = true
		}
		assert.True(t, systems[g.System], "no part kind is of the system %q", g.System)
	})
	for _, k := range cat.PartKinds {
		for _, id := range k.Repairs {
			g, ok := repair.Named(Guides(), id)
			if assert.True(t, ok, "%s: repair %s", k.ID, id) {
				assert.Contains(t, g.PartKinds, k.ID, "the repair %s does not name %s", id, k.ID)
			}
		}
	}
}

// rigsFor makes a rig for every combination of the options of the traits a guide
// asks for, each also not known.
func rigsFor(g repair.Guide, cat fieldkit.Catalog) []fieldkit.Rig {
	used := map[string]bool{}
	note := func(c repair.Condition) {
		for _, trait := range c.Traits() {
			used[trait] = true
		}
	}
	for _, list := range [][]repair.Ruling{g.Roll, g.Drive, g.AfterFieldFix} {
		for _, r := range list {
			note(r.When)
		}
	}
	for _, s := range g.Steps {
		note(s.Only)
		for _, o := range s.Options {
			note(o.When)
		}
	}
	rigs := []fieldkit.Rig{{ID: "rig"}}
	for _, t := range cat.Traits {
		if !used[t.ID] {
			continue
		}
		var more []fieldkit.Rig
		for _, r := range rigs {
			more = append(more, r)
			for _, option := range t.Options {
				traits := map[string]string{t.ID: option}
				for k, v := range r.Traits {
					traits[k] = v
				}
				more = append(more, fieldkit.Rig{ID: "rig", Traits: traits})
			}
		}
		rigs = more
	}
	return rigs
}

// ways follows every answer from where a run stands, each step once, and returns
// the shortest and the longest way to the end.
func ways(t *testing.T, g repair.Guide, run fieldkit.Run, rig fieldkit.Rig, known map[string][2]int) (shortest, longest int) {
	t.Helper()
	if run.Step == repair.End {
		return 0, 0
	}
	if n, ok := known[run.Step]; ok {
		return n[0], n[1]
	}
	require.LessOrEqual(t, len(run.Path), len(g.Steps), "the way does not end")
	v := repair.Current(g, run, rig)
	require.Equal(t, run.Step, v.Step.ID)
	require.Empty(t, v.Moved)
	shortest = math.MaxInt
	try := func(next fieldkit.Run, err error) {
		require.NoError(t, err)
		s, l := ways(t, g, next, rig, known)
		shortest, longest = min(shortest, s+1), max(longest, l+1)
	}
	if !v.Step.Asks() {
		try(repair.Done(g, run, rig, run.Step))
	}
	for _, o := range v.Step.Options {
		try(repair.Answer(g, run, rig, run.Step, o.Answer))
	}
	known[run.Step] = [2]int{shortest, longest}
	return shortest, longest
}

// Whatever the rig and whatever the answers, every repair comes to its end, and
// the whole of it is 10 to 25 steps.
func TestEveryWayEnds(t *testing.T) {
	cat := Catalog()
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		rigs := rigsFor(g, cat)
		least, most := math.MaxInt, 0
		for _, rig := range rigs {
			run := repair.Start(g, rig, "", "run", fieldkit.Moment{})
			s, l := ways(t, g, run, rig, map[string][2]int{})
			assert.Equal(t, l, repair.Current(g, run, rig).About, "the number of steps foretold is the longest way")
			least, most = min(least, s), max(most, l)
			for _, m := range []repair.Movement{g.CanRoll(rig), g.CanDrive(rig), g.CanDriveAfterFieldFix(rig)} {
				assert.NotEmpty(t, m.Verdict, "no verdict for %v", rig.Traits)
				assert.NotEmpty(t, m.Why)
			}
		}
		t.Logf("%d rigs, %d steps in all, ways of %d to %d steps", len(rigs), len(g.Steps), least, most)
		assert.GreaterOrEqual(t, most, 10)
		assert.LessOrEqual(t, most, 25)
	})
}

// A rig whose traits are all known is asked none of the questions they answer.
func TestKnownRigIsNotAskedWhatItIs(t *testing.T) {
	cat := Catalog()
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, rig := range rigsFor(g, cat) {
			for _, s := range g.Steps {
				for _, o := range s.Options {
					if len(o.When) == 0 || o.When.On(rig) != repair.Holds {
						continue
					}
					v := repair.Current(g, fieldkit.Run{Guide: g.ID, Step: s.ID}, rig)
					assert.NotEqual(t, s.ID, v.Step.ID, "%s asks what the rig tells: %v", s.ID, rig.Traits)
				}
			}
		}
	})
}

// Field fix and proper fix are both there and lead to a check of the result, and
// what comes first makes the work safe.
func TestFixesAreKeptApartAndChecked(t *testing.T) {
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		assert.Equal(t, repair.MakeSafe, g.Steps[0].Stage)
		stages := map[repair.Stage]bool{}
		for _, s := range g.Steps {
			stages[s.Stage] = true
		}
		for _, s := range []repair.Stage{repair.Field, repair.Proper, repair.CheckIt} {
			assert.True(t, stages[s], "no step of the stage %q", s)
		}
		last := g.Steps[len(g.Steps)-1]
		assert.Equal(t, repair.CheckIt, last.Stage, "the last step checks the result")
		assert.Contains(t, last.Hazards, repair.Road, "the first drive is marked")
	})
}

// A step that points to another repair names it by its title, and the other way
// round, so that a link can be made of it.
func TestOtherRepairsNamed(t *testing.T) {
	quoted := regexp.MustCompile(`'([A-Z][^']+)'`)
	links := 0
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, s := range g.Steps {
			var named []string
			for _, m := range quoted.FindAllStringSubmatch(s.Text, -1) {
				named = append(named, m[1])
			}
			require.Len(t, s.See, len(named), "%s: %s", s.ID, s.Text)
			for _, id := range s.See {
				links++
				other, ok := repair.Named(Guides(), id)
				require.True(t, ok, "%s: no repair %q", s.ID, id)
				assert.True(t, slices.ContainsFunc(named, func(n string) bool { return strings.HasPrefix(other.Title, n) }), "%s: %q is not named in %q", s.ID, other.Title, s.Text)
			}
		}
	})
	assert.GreaterOrEqual(t, links, 10)
}

// A step that ends a repair early says so: nothing was fixed, and the log must not
// say that it was.
func TestEarlyEndsAreStops(t *testing.T) {
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, s := range g.Steps {
			if strings.HasPrefix(s.Text, "Do not drive") || strings.HasPrefix(s.Text, "Close this repair") {
				assert.Equal(t, repair.Stop, s.Stage, s.ID)
			}
			if s.Stage == repair.Stop {
				assert.Equal(t, repair.End, s.Next, "%s goes on after a stop", s.ID)
			}
		}
	})
}

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

// The proof stress in MPa of the fasteners that repairs give torques for:
// SAE J429 grades 5 and 8 up to 1 in, ISO 898-1 classes 8.8 up to M16 and 10.9.
var proofStress = map[string]float64{"grade 5": 586, "grade 8": 827, "class 8.8": 580, "class 10.9": 830}

// boltTorque is T = K·D·F in newton metres at 75 % of the proof load; the stress
// area is that of ASME B1.1 and ISO 898-1.
func boltTorque(t *testing.T, thread, grade string, k float64) float64 {
	t.Helper()
	const inch = 25.4
	var d, area float64 // mm, mm²
	if metric, ok := strings.CutPrefix(thread, "M"); ok {
		size, pitch, _ := strings.Cut(metric, "x")
		d = number(t, size)
		area = math.Pi / 4 * math.Pow(d-0.9382*number(t, pitch), 2)
	} else {
		size, perInch, _ := strings.Cut(thread, "-")
		d = number(t, size) * inch
		area = math.Pi / 4 * math.Pow(d-0.9743*inch/number(t, perInch), 2)
	}
	proof, ok := proofStress[grade]
	require.True(t, ok, "grade %q", grade)
	return k * d / 1000 * 0.75 * proof * area
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	if num, den, ok := strings.Cut(text, "/"); ok {
		return number(t, num) / number(t, den)
	}
	n, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return n
}

// The formula above is held against a published tightening table first: grade 5
// and 8 bolts at 75 % of the proof load, K = 0.20 plain and 0.15 plated, in lb-ft
// (table after Industrial Fasteners Institute, technical data N-12).
func TestBoltTorqueAgainstPublishedTable(t *testing.T) {
	for _, row := range []struct {
		thread, grade string
		k, lbft       float64
	}{
		{"3/8-16", "grade 5", 0.20, 31}, {"3/8-16", "grade 5", 0.15, 23},
		{"3/8-24", "grade 5", 0.20, 35}, {"1/2-20", "grade 5", 0.20, 85},
		{"7/16-14", "grade 8", 0.20, 70}, {"1/2-20", "grade 8", 0.20, 120},
		{"1/2-20", "grade 8", 0.15, 90}, {"5/8-18", "grade 8", 0.20, 240},
	} {
		assert.InEpsilon(t, row.lbft, boltTorque(t, row.thread, row.grade, row.k)/1.3558179, 0.03, "%s %s K %.2f", row.thread, row.grade, row.k)
	}
}

func TestComputedTorques(t *testing.T) {
	computed := 0
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, s := range g.Steps {
			for _, q := range s.Torques {
				if q.Source != repair.FromFastener {
					assert.Empty(t, q.Grade, "%s: a figure of practice claims a grade", s.ID)
					continue
				}
				computed++
				for k, given := range map[float64]fieldkit.Torque{0.15: q.Low, 0.20: q.High} {
					want := boltTorque(t, q.Thread, q.Grade, k)
					// Figures are rounded to a whole lb-ft or N·m, at most 0.7 N·m away.
					assert.InDelta(t, want, float64(given)/float64(fieldkit.NewtonMetre), max(0.7, want*0.01), "%s: %s %s K %.2f", s.ID, q.Thread, q.Grade, k)
				}
			}
		}
	})
	assert.GreaterOrEqual(t, computed, 20)
}

// Tapered bearings are set with 0.001 to 0.005 in of end play (0.03 to 0.13 mm):
// common practice of the trade for hubs with a spindle nut.
func TestTaperedBearingEndPlay(t *testing.T) {
	g, _ := repair.Named(Guides(), "wheel-bearing")
	s, ok := g.Step("set")
	require.True(t, ok)
	require.Len(t, s.Figures, 1)
	assert.Contains(t, s.Figures[0].Text(fieldkit.Inch), "0.001 to 0.005 in (0.03 to 0.13 mm); common practice")
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
		"howling noise when I turn the steering wheel":       "steering-pump",
		"steering suddenly stiff, fluid sprayed everywhere":  "steering-hose",
		"brake pedal goes to the floor":                      "brake-line",
		"one wheel is hot and smells burned":                 "brake-hose",
		"grinding noise when I brake":                        "brake-pads",
		"wheel wobbles when shaken, rumbling hub":            "wheel-bearing",
		"growling noise and ABS lamp, anti-lock":             "unit-bearing",
		"clicking in tight turns from the front wheel":       "u-joint-axle",
		"vibration that gets worse with speed":               "u-joint-drive-shaft",
		"bang from the rear axle and the wheel comes out":    "axle-shaft-rear",
		"no drive at the front, hub knob will not turn":      "locking-hub",
		"front wheels point in different directions":         "tie-rod-end",
		"drive shaft is bent and hanging down":               "drive-shaft-out",
		"bang and grinding inside the front axle tube":       "axle-shaft-front",
		"brake hose bulges":                                  "brake-hose",
		"squeak underneath that gets faster with the wheels": "u-joint-drive-shaft",
	} {
		matches := repair.BySymptom(Guides(), query)
		var first []string
		for _, m := range matches[:min(3, len(matches))] {
			first = append(first, m.Guide.ID)
		}
		assert.Contains(t, first, want, query)
	}
}

// A joint of the demo's steering fails, the carried one is fitted, and the log says
// so: what it used comes off the stock.
func TestDemoJointIsLoggedAndDrawnFromStock(t *testing.T) {
	kit := DemoKit()
	g, _ := repair.Named(Guides(), "tie-rod-end")
	i := slices.IndexFunc(kit.Positions, func(p fieldkit.Position) bool { return p.Kind == "tie-rod-end" && kit.Stock(p.Part) > 0 })
	require.GreaterOrEqual(t, i, 0)
	position := kit.Positions[i]
	rig, ok := kit.RigOf(position)
	require.True(t, ok)

	answers := map[string]string{"look": "A joint has come out or broken off", "have": "Yes"}
	run := repair.Start(g, rig, position.ID, "run", fieldkit.Moment{})
	for run.Step != repair.End {
		var err error
		if answer, asks := answers[run.Step]; asks {
			run, err = repair.Answer(g, run, rig, run.Step, answer)
		} else {
			run, err = repair.Done(g, run, rig, run.Step)
		}
		require.NoError(t, err)
	}
	f := repair.FailureFrom(g, run, kit, fieldkit.Moment{}, "failure")
	assert.Equal(t, g.ProperFix, f.Fix)
	require.NotEmpty(t, f.Used)
	assert.Equal(t, fieldkit.Item{Type: fieldkit.SpareItem, Item: position.Part, Count: 1}, f.Used[0])
	changed, short := repair.Use(kit, f.Used)
	assert.Empty(t, short)
	left := kit.Stock(position.Part)
	for _, r := range changed {
		c, _ := fieldkit.CollectionNamed(r.Collection())
		c.Put(&kit, r)
	}
	assert.Equal(t, left-1, kit.Stock(position.Part))
}

// syllables counts groups of vowels, the silent e at the end aside: near enough
// for a readability figure.
func syllables(word string) int {
	n, inVowel := 0, false
	for _, r := range word {
		vowel := strings.ContainsRune("aeiouy", r)
		if vowel && !inVowel {
			n++
		}
		inVowel = vowel
	}
	if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") && n > 1 {
		n--
	}
	return max(n, 1)
}

// grade is the Flesch-Kincaid grade level (Kincaid et al. 1975):
// 0.39·words/sentences + 11.8·syllables/words − 15.59.
func grade(text string) float64 {
	sentences := len(regexp.MustCompile(`[.!?]+(\s|$)`).FindAllString(text, -1))
	words := regexp.MustCompile(`[a-z]+`).FindAllString(strings.ToLower(text), -1)
	n := 0
	for _, w := range words {
		n += syllables(w)
	}
	return 0.39*float64(len(words))/float64(max(sentences, 1)) + 11.8*float64(n)/float64(len(words)) - 15.59
}

func TestReadingLevel(t *testing.T) {
	// Worked by hand: 6 words, 1 sentence, 6 syllables.
	assert.InDelta(t, 0.39*6+11.8-15.59, grade("The cat sat on the mat."), 1e-9)
	worst := 0.0
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		var all []string
		for _, s := range g.Steps {
			all = append(all, s.Text)
		}
		level := grade(strings.Join(all, " "))
		worst = max(worst, level)
		t.Logf("reading level of the steps: grade %.1f", level)
		assert.LessOrEqual(t, level, 7.0, "a tired person reads it at one glance")
	})
	t.Logf("hardest repair: grade %.1f", worst)
}

// The printed checklist of one repair for one rig, whole.
func TestChecklistGolden(t *testing.T) {
	g, ok := repair.Named(Guides(), "axle-shaft-rear")
	require.True(t, ok)
	rig := fieldkit.Rig{ID: "rig", Name: "Marrow", Traits: map[string]string{"rear-axle": "full-float", "drive": "part-time 4x4", "differential-lock": "none"}}
	text := g.Text(Catalog(), rig, fieldkit.Metric)
	golden := filepath.Join("testdata", "checklist_axle_shaft_rear.txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, []byte(text), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), text)
	for n, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 80, "line %d is too wide for a narrow page", n+1)
	}
}

// Every checklist prints for every repair in both systems, with every caution of
// the steps it shows.
func TestChecklistsPrint(t *testing.T) {
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, system := range []fieldkit.System{fieldkit.Metric, fieldkit.Inch} {
			text := g.Text(Catalog(), fieldkit.Rig{}, system)
			flat := strings.Join(strings.Fields(text), " ")
			for _, s := range g.Steps {
				assert.Contains(t, flat, s.Text)
				for _, c := range s.Cautions {
					assert.Contains(t, flat, c.Avoid)
				}
			}
			assert.NotContains(t, text, "step 0")
		}
	})
}
