package data

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// A joint of the demo's steering fails, the carried one is fitted, and the log says
// so: what it used comes off the stock.
func TestDemoJointIsLoggedAndDrawnFromStock(t *testing.T) {
	kit := DemoKit()
	g, _ := repair.Named(Guides(), "tie-rod-end")
	i := slices.IndexFunc(kit.Positions.Slice(), func(p fieldkit.Position) bool { return p.Kind == "tie-rod-end" && kit.Stock(p.Part) > 0 })
	require.GreaterOrEqual(t, i, 0)
	position := kit.Positions.At(i)
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

// Good pads are not logged as worn out; pads found worn are, also without a spare.
func TestGoodPadsAreNoFailure(t *testing.T) {
	g, _ := repair.Named(Guides(), "brake-pads")
	for lining, good := range map[string]bool{
		"More than the limit on every pad":          true,
		"Less than the limit, but no metal touches": false,
		"Metal on metal, or lining loose or oily":   false,
		"I cannot tell": false,
	} {
		answers := map[string]string{"kind": "A rotor with a caliper", "lining": lining, "have": "No", "swap": "No", "pump": "Yes"}
		run := repair.Start(g, fieldkit.Rig{}, "", "run", fieldkit.Moment{})
		for run.Step != repair.End {
			var err error
			if answer, asks := answers[run.Step]; asks {
				run, err = repair.Answer(g, run, fieldkit.Rig{}, run.Step, answer)
			} else {
				run, err = repair.Done(g, run, fieldkit.Rig{}, run.Step)
			}
			require.NoError(t, err)
		}
		assert.Equal(t, good, g.Sound(run), lining)
		f := repair.FailureFrom(g, run, fieldkit.Kit{}, fieldkit.Moment{}, "failure")
		assert.Equal(t, !good, f.What == g.Failed, "%s: %s", lining, f.What)
	}
}

// The log tells a field fix from a proper one, a stop from both, and names no
// failure where another repair is the right one.
func TestLogSaysWhichFixItWas(t *testing.T) {
	const none, field, proper = "", "field", "proper"
	for _, c := range []struct {
		guide   string
		answers map[string]string
		fix     string
		sound   bool
	}{
		{"puncture", map[string]string{"find": "In the tread, at least a thumb's width from its edge", "size": "A nail or thorn, up to 6 mm (1/4 in)", "air": "Yes, no bubble"}, field, false},
		{"puncture", map[string]string{"find": "In the tread, at least a thumb's width from its edge", "size": "Larger, or torn", "spare": "Yes"}, proper, false},
		{"puncture", map[string]string{"find": "At the valve"}, none, true},
		{"wheel-studs", map[string]string{"count": "All studs whole, nuts only loose", "wheel": "Yes", "studs": "Yes"}, proper, false},
		{"wheel-studs", map[string]string{"count": "Studs broken or stripped", "wheel": "Yes", "studs": "No, and I have none", "left": "All but one"}, field, false},
		{"wheel-studs", map[string]string{"count": "Studs broken or stripped", "wheel": "Yes", "studs": "No, and I have none", "left": "Fewer"}, none, false},
		{"brake-air", map[string]string{"level": "Dry everywhere", "pump": "Spongy, and higher after pumping", "rear": "discs", "pedal": "High and firm, and it stays"}, field, false},
		{"brake-air", map[string]string{"level": "Wet below the master cylinder or inside the booster", "master": "Yes", "pedal": "High and firm, and it stays"}, proper, false},
		{"brake-air", map[string]string{"level": "A line drips or is cut"}, none, true},
		{"brake-caliper", map[string]string{"drag": "No, it still drags", "look": "Mud or rust, no fluid", "piston": "Yes, smoothly", "pedal": "High and firm, and it stays"}, field, false},
		{"brake-caliper", map[string]string{"drag": "Yes, fluid spurts and it turns free"}, none, true},
		{"brake-fade", map[string]string{"what": "Hard, but little happened", "feel": "All about alike", "press": "High and firm, and it stays", "look": "Linings thick enough, rotors whole", "fluid-old": "Yes", "glaze": "They do not shine", "pedal": "High and firm, and it stays"}, field, false},
		{"brake-fade", map[string]string{"what": "Soft, low, or it sank", "feel": "All about alike", "press": "Spongy, firm after pumping", "fluid": "Yes, a litre", "glaze": "They do not shine", "pedal": "High and firm, and it stays"}, proper, false},
		{"brake-fade", map[string]string{"what": "Soft, low, or it sank", "feel": "All about alike", "press": "Spongy, firm after pumping", "fluid": "None", "glaze": "I cannot tell", "pedal": "Soft, low, or it sinks"}, none, false},
		{"brake-fade", map[string]string{"what": "Soft, low, or it sank", "feel": "All about alike", "press": "It sinks slowly under the foot"}, none, true},
		{"brake-fade", map[string]string{"what": "Hard, but little happened", "feel": "One is much hotter"}, none, true},
		{"brake-fade", map[string]string{"what": "Hard, but little happened", "feel": "All about alike", "press": "High and firm, and it stays", "look": "Oil or grease on a lining"}, none, true},
		{"brake-fade", map[string]string{"what": "Hard, but little happened", "feel": "All about alike", "press": "High and firm, and it stays", "look": "Rotor cracked through, or blue"}, none, false},
		{"wheel-seal", map[string]string{"smell": "Gear oil: sharp smell, thick", "rock": "No play, turns smooth", "have": "Yes", "where": "Rear", "rear": "full-float axle", "track": "Smooth"}, proper, false},
		{"wheel-seal", map[string]string{"smell": "Grease", "rock": "No play, turns smooth", "have": "No"}, field, false},
		{"tie-rod-bent", map[string]string{"look": "A smooth bow, no crack", "have": "No", "shape": "A smooth bow, no crack", "pull": "Straight, no crack"}, field, false},
		{"tie-rod-bent", map[string]string{"look": "A smooth bow, no crack", "have": "Yes"}, proper, false},
		{"axle-cover", map[string]string{"look": "A hole or crack in the cover", "dent": "No noise", "have-out": "Only putty, screws or sealant"}, field, false},
		{"axle-cover", map[string]string{"look": "A hole or crack in the cover", "dent": "It scrapes", "have": "Yes", "gears": "Teeth whole, no chips", "mend": "A new or borrowed one"}, proper, false},
		{"gear-oil-water", map[string]string{"first": "Yes", "look": "Clear, gold or dark, level right"}, none, true},
	} {
		g, ok := repair.Named(Guides(), c.guide)
		require.True(t, ok, c.guide)
		rig := fieldkit.Rig{}
		run := repair.Start(g, rig, "", "run", fieldkit.Moment{})
		for run.Step != repair.End {
			var err error
			if s, _ := g.Step(run.Step); s.Asks() {
				require.Contains(t, c.answers, s.ID, "%s asks more: %s", c.guide, s.Text)
				run, err = repair.Answer(g, run, rig, s.ID, c.answers[s.ID])
			} else {
				run, err = repair.Done(g, run, rig, s.ID)
			}
			require.NoError(t, err)
		}
		f := repair.FailureFrom(g, run, fieldkit.Kit{}, fieldkit.Moment{}, "failure")
		want := map[string]string{none: "", field: "Field fix: " + g.FieldFix, proper: g.ProperFix}[c.fix]
		assert.Equal(t, want, f.Fix, "%s %v", c.guide, c.answers)
		assert.Equal(t, c.sound, g.Sound(run), "%s %v", c.guide, c.answers)
		assert.Equal(t, !c.sound, f.What == g.Failed, "%s: %s", c.guide, f.What)
		if stop, ok := g.StoppedAt(run); ok {
			assert.Equal(t, run.Path[len(run.Path)-1], stop.ID)
			assert.Empty(t, f.Fix, "a stop mends nothing")
		}
	}
}

// A way that stopped says where; one that ended well, or is under way, does not.
func TestStoppedAt(t *testing.T) {
	g, _ := repair.Named(Guides(), "brake-fade")
	stop, ok := g.StoppedAt(fieldkit.Run{Path: []string{"now", "feel", "drags"}, Step: repair.End})
	require.True(t, ok)
	assert.Equal(t, []string{"brake-caliper"}, stop.See)
	for _, run := range []fieldkit.Run{{}, {Path: []string{"now", "feel"}, Step: "drags"}, {Path: []string{"now", "plan", "walk"}, Step: repair.End}} {
		_, ok := g.StoppedAt(run)
		assert.False(t, ok)
	}
}
