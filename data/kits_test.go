package data

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/kitfile"
)

var update = flag.Bool("update", false, "write demo.json and blank.json as they are saved")

// The embedded kits stand as Save writes them, so that a change of one figure is a
// change of one line.
func TestKitsAreAsSaved(t *testing.T) {
	for name, file := range map[string][]byte{"demo.json": demoFile, "blank.json": blankFile} {
		t.Run(name, func(t *testing.T) {
			kit, err := kitfile.Load(name, file)
			require.NoError(t, err)
			assert.Equal(t, kit, embedded(name, file))
			saved := kitfile.Save(kit)
			if *update {
				require.NoError(t, os.WriteFile(name, saved, 0o644))
				return
			}
			assert.Equal(t, string(saved), string(file), "run go test ./data -update")
		})
	}
}

func TestKitsAreSound(t *testing.T) {
	for name, kit := range map[string]fieldkit.Kit{"demo": DemoKit(), "blank": BlankKit("x")} {
		t.Run(name, func(t *testing.T) {
			assert.Empty(t, kitfile.Check(kit))
			assert.Empty(t, kitfile.CheckAgainst(kit, Catalog()))
			for _, p := range kit.Positions.All() {
				if part, ok := kit.Part(p.Part); ok {
					assert.Equal(t, p.Kind, part.Kind, p.ID)
				}
				parent, ok := kit.Position(p.Parent)
				if ok {
					assert.Equal(t, parent.System, p.System, p.ID)
					assert.Equal(t, parent.Side, p.Side, p.ID)
				}
				if p.Side != fieldkit.NoSide {
					_, mirrored := kit.Mirror(p)
					assert.True(t, mirrored, "%s has no other side", p.ID)
				}
			}
		})
	}
}

func TestBlankKit(t *testing.T) {
	a, b := BlankKit("a"), BlankKit("b")
	assert.Equal(t, "a", a.ID)
	assert.Equal(t, "b", b.ID)
	require.Len(t, a.Rigs, 1)
	assert.Equal(t, "My rig", a.Rigs[0].Name)
	assert.GreaterOrEqual(t, a.Positions.Len(), 50)
	for _, p := range a.Positions.All() {
		assert.Empty(t, p.Part, p.ID)
	}
	assert.NotEmpty(t, a.Bins)
	assert.Empty(t, a.Donors)
	assert.Empty(t, a.Parts.Slice())
	assert.Empty(t, a.Trips)
}

func TestDemoIsRich(t *testing.T) {
	k := DemoKit()
	assert.LessOrEqual(t, len(demoFile), 262_000, "bytes of demo.json")
	assert.Len(t, k.Rigs, 2)
	assert.Len(t, k.Donors, 5)
	for collection, least := range map[string]int{
		"positions": 60, "links": 15, "bins": 4, "spares": 25, "consumables": 15, "tools": 25, "failures": 20, "inspections": 35,
	} {
		c, ok := fieldkit.CollectionNamed(collection)
		require.True(t, ok, collection)
		assert.GreaterOrEqual(t, len(c.All(k)), least, collection)
	}
	for _, r := range k.Rigs {
		assert.NotEmpty(t, r.Registration, r.ID)
		for _, trait := range Catalog().Traits {
			assert.NotEmpty(t, r.Traits[trait.ID], "%s does not say its %s", r.ID, trait.ID)
		}
	}
	require.Len(t, k.Runs, 1)
	assert.Empty(t, k.Runs[0].Step)
	assert.True(t, k.Runs[0].Finished.IsZero())
}

func TestDemoTrips(t *testing.T) {
	k := DemoKit()
	done := 0
	var ahead []fieldkit.Trip
	for _, trip := range k.Trips {
		if trip.Done {
			done++
		} else {
			ahead = append(ahead, trip)
		}
	}
	assert.GreaterOrEqual(t, done, 12)
	require.Len(t, ahead, 1)
	next := ahead[0]
	assert.Equal(t, 5, next.Days)
	assert.Len(t, next.Rigs, 2)
	require.Len(t, next.Towns, 3)
	assert.Positive(t, next.Limits.Mass)
	assert.Positive(t, next.Limits.Volume)
	require.NotNil(t, next.Limits.Money)
	for i, a := range next.Towns {
		for _, b := range next.Towns[i+1:] {
			assert.NotEqual(t, a.Stores, b.Stores)
			assert.NotEqual(t, a.Away, b.Away)
		}
	}
}

// A failure or reading of a trip lies within it, in days and on the odometer, and
// readings at a position never run backwards.
func TestDemoLogHangsTogether(t *testing.T) {
	k := DemoKit()
	for _, f := range k.Failures.All() {
		trip, ok := k.Trip(f.Trip)
		require.True(t, ok, f.ID)
		assert.Contains(t, trip.Rigs, f.Rig, f.ID)
		day := trip.Start.DaysUntil(f.On)
		assert.True(t, day >= 0 && day < trip.Days, "%s is not on its trip", f.ID)
		position, _ := k.Position(f.Position)
		rig, _ := k.RigOf(position)
		assert.Equal(t, f.Rig, rig.ID, f.ID)
		assert.Less(t, f.Odometer, rig.Odometer, f.ID)
		for _, words := range []string{f.What, f.Why, f.Fix} {
			assert.NotEmpty(t, words, f.ID)
		}
		assert.True(t, f.Place.HasFix(), f.ID)
	}
	cat := Catalog()
	last := map[string]fieldkit.Inspection{}
	series := map[string]int{}
	for _, in := range k.Inspections.All() {
		position, _ := k.Position(in.Position)
		kind, _ := cat.PartKind(position.Kind)
		require.NotNil(t, kind.Wear, in.ID)
		assert.Equal(t, kind.Wear.Name, in.Name, in.ID)
		assert.GreaterOrEqual(t, in.Odometer, position.FittedAt, "%s was read before the part was fitted", in.ID)
		if before, ok := last[in.Position]; ok {
			assert.True(t, before.On.Before(in.On), in.ID)
			assert.Less(t, before.Odometer, in.Odometer, in.ID)
			if kind.Wear.Falling {
				assert.Less(t, in.Value.Base, before.Value.Base, in.ID)
			} else {
				assert.Greater(t, in.Value.Base, before.Value.Base, in.ID)
			}
		}
		last[in.Position] = in
		series[in.Position]++
	}
	long := 0
	for _, n := range series {
		if n >= 4 {
			long++
		}
	}
	assert.GreaterOrEqual(t, long, 5, "series of four readings and more")
}

func TestDemoMeasurementsAreOfTheirKind(t *testing.T) {
	cat := Catalog()
	metric, inch := 0, 0
	for _, p := range DemoKit().Parts.All() {
		kind, _ := cat.PartKind(p.Kind)
		var names []string
		for _, a := range kind.Deciding {
			names = append(names, a.Name)
		}
		for _, m := range p.Measurements {
			if m.Value.Dim != fieldkit.DimTorque { // of a fastener: steps find it by the fastener's name
				assert.Contains(t, names, m.Name, p.ID)
			}
			switch text := m.Value.String(); {
			case strings.HasSuffix(text, " mm"):
				metric++
			case strings.HasSuffix(text, " in"):
				inch++
			}
		}
	}
	assert.Greater(t, metric, 20)
	assert.Greater(t, inch, 20)
}

// Evidence of every strength, every grade, and gaps for counter-ready to find.
func TestDemoShowsAllShades(t *testing.T) {
	k, cat := DemoKit(), Catalog()
	evidence, grades, issuers := map[fieldkit.Evidence]bool{}, map[fieldkit.Grade]bool{}, map[fieldkit.Issuer]bool{}
	prove := func(p *fieldkit.Proof) {
		if p != nil {
			evidence[p.How] = true
		}
	}
	bare, unproven := 0, 0
	for _, p := range k.Positions.All() {
		prove(p.Proof)
		if p.Part == "" {
			bare++
		}
	}
	gaps := 0
	for _, p := range k.Parts.All() {
		if p.Donor == "" && len(p.Numbers) == 0 {
			unproven++
		}
		for _, n := range p.Numbers {
			prove(n.Proof)
			issuers[n.Issuer] = true
		}
		kind, _ := cat.PartKind(p.Kind)
		for _, a := range kind.Deciding {
			if a.Must && !slices.ContainsFunc(p.Measurements, func(m fieldkit.Measurement) bool { return m.Name == a.Name }) {
				gaps++
			}
		}
	}
	for _, l := range k.Links.All() {
		grades[l.Grade] = true
		evidence[l.Evidence] = true
		assert.Equal(t, l.Grade == fieldkit.WithChanges, len(l.Changes) > 0 && l.Grade != fieldkit.OneWay, "%s: changes and grade disagree", l.ID)
	}
	for _, e := range fieldkit.EvidenceOrder {
		assert.True(t, evidence[e], string(e))
	}
	assert.Len(t, grades, 4)
	assert.Len(t, issuers, 4)
	assert.GreaterOrEqual(t, bare, 3, "positions with nothing fitted")
	assert.GreaterOrEqual(t, unproven, 3, "parts with neither donor nor number")
	assert.GreaterOrEqual(t, gaps, 20, "measures not taken")
}

func TestDemoInterchange(t *testing.T) {
	k := DemoKit()
	graph := interchange.New(k.Parts.Slice(), k.Links.Slice())
	longest := 0
	for _, p := range k.Parts.All() {
		for _, s := range graph.StandIns(p.ID) {
			longest = max(longest, len(s.Chain))
		}
	}
	assert.GreaterOrEqual(t, longest, 2, "steps of the longest chain")
	blocked := false
	for _, c := range graph.Contradictions() {
		blocked = blocked || c.Block.ID == "hose-wagon-not-upper"
		assert.Equal(t, fieldkit.Hearsay, c.Chain.Weakest, "only what somebody said may speak against a measured misfit")
	}
	assert.True(t, blocked, "the hearsay about the hose is caught")
}

// The scenario is invented as a whole: maker's numbers come from the makes of the
// donors, and replacement brands are the few of the scenario.
func TestDemoNamesAreOfTheScenario(t *testing.T) {
	k := DemoKit()
	makes := map[string]bool{}
	for _, d := range k.Donors {
		makes[d.Make] = true
	}
	brands := []string{"Dunmarl", "Glimmarsh", "Oxhallow", "Peltrow", "Quernmark", "Sundermoor"}
	for _, p := range k.Parts.All() {
		for _, n := range p.Numbers {
			switch n.Issuer {
			case fieldkit.MakerNumber:
				donor, _ := k.Donor(p.Donor)
				assert.Equal(t, donor.Make, n.From, p.ID)
			case fieldkit.ReplacementNumber:
				assert.Contains(t, brands, n.From, p.ID)
			case fieldkit.StandardNumber:
				assert.False(t, makes[n.From] || slices.Contains(brands, n.From), p.ID)
			}
		}
	}
}
