package data

import (
	"math"
	"regexp"
	"slices"
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
	guides, err := readGuides(repair.LoadGuides)
	require.NoError(t, err)
	assert.Equal(t, guides, Guides())
	assert.GreaterOrEqual(t, len(guides), 40)
	assert.True(t, slices.IsSortedFunc(guides, func(a, b repair.Guide) int { return strings.Compare(a.ID, b.ID) }))
	for _, id := range []string{
		"steering-pump", "steering-hose", "brake-line", "brake-hose", "brake-pads", "wheel-bearing", "unit-bearing",
		"u-joint-axle", "u-joint-drive-shaft", "axle-shaft-front", "axle-shaft-rear", "tie-rod-end", "locking-hub", "drive-shaft-out",
		"steering-ram", "tie-rod-bent", "steering-box", "ball-joint", "wheel-seal", "ring-and-pinion", "axle-cover", "gear-oil-water",
		"brake-caliper", "brake-fade", "brake-air", "wheel-studs", "puncture", "sidewall-cut", "bead-off", "valve-stem",
		"coolant-hose", "radiator-hole", "water-pump", "belt-tensioner", "fan", "overheating", "alternator", "battery-ground",
		"starter", "fuse-short", "fuel-pump", "fuel-leak", "water-in-engine", "clutch-hydraulics", "throttle", "roll-over",
		"spring-or-link", "shock-mount", "transfer-linkage", "winch",
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
