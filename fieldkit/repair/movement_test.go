package repair_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func TestConditionOn(t *testing.T) {
	both := repair.Condition{"post": {"wood", "steel"}, "gate": {"wide"}}
	for name, c := range map[string]struct {
		when   repair.Condition
		traits map[string]string
		want   repair.Answered
	}{
		"no condition holds on every rig":   {nil, nil, repair.Holds},
		"nothing known":                     {both, nil, repair.NotKnown},
		"one of two known":                  {both, map[string]string{"post": "wood"}, repair.NotKnown},
		"all hold":                          {both, map[string]string{"post": "steel", "gate": "wide"}, repair.Holds},
		"one fails, the other is not known": {both, map[string]string{"gate": "narrow"}, repair.Fails},
		"one fails, the other holds":        {both, map[string]string{"post": "wood", "gate": "narrow"}, repair.Fails},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, c.when.On(rigWith(c.traits))) })
	}
	assert.Equal(t, "gate: wide; post: wood or steel", both.String())
}

func TestMovement(t *testing.T) {
	g := gate(t)
	for name, c := range map[string]struct {
		rig  fieldkit.Rig
		want repair.Verdict
		ask  []string
	}{
		"the first ruling that holds":               {wooden, repair.May, nil},
		"the next if it fails":                      {steel, repair.MayWithin, nil},
		"the last for the rest":                     {stone, repair.MayNot, nil},
		"not known: the most cautious that may be":  {unknown, repair.MayNot, []string{"post"}},
		"a trait of another matter decides nothing": {rigWith(map[string]string{"gate": "wide"}), repair.MayNot, []string{"post"}},
	} {
		t.Run(name, func(t *testing.T) {
			m := g.CanRoll(c.rig)
			assert.Equal(t, c.want, m.Verdict)
			assert.Equal(t, c.ask, m.Ask)
		})
	}
	assert.Equal(t, repair.MayNot, g.CanDrive(wooden).Verdict)
	assert.Equal(t, "with limits: rope stretches; open it by hand only", g.CanDriveAfterFieldFix(wooden).Text(fieldkit.Metric))

	// Knowing more never makes the answer more cautious.
	rank := map[repair.Verdict]int{repair.May: 0, repair.MayWithin: 1, repair.MayNot: 2}
	for _, rig := range testRigs {
		assert.LessOrEqual(t, rank[g.CanRoll(rig).Verdict], rank[g.CanRoll(unknown).Verdict])
	}
}

func TestRulingText(t *testing.T) {
	r := gate(t).CanRoll(steel).Ruling
	assert.Equal(t, "with limits, at most 20 km/h (12 mph), no further than 5 km (3.1 mi): a steel post bends", r.Text(fieldkit.Metric))
	assert.Equal(t, "with limits, at most 12 mph (20 km/h), no further than 3.1 mi (5 km): a steel post bends", r.Text(fieldkit.Inch))
}

func TestFigureText(t *testing.T) {
	s, _ := gate(t).Step("screw")
	assert.Equal(t, "hinge screw (M8x1.25 class 8.8): 19 to 25 N·m (14 to 18 lb-ft); computed from the fastener, a starting figure; the maker's figure stands", s.Torques[0].Text(fieldkit.Metric))
	assert.Equal(t, "gap: at most 1/2 in (12.7 mm); common practice, a starting figure; the maker's figure stands; at the latch", s.Figures[0].Text(fieldkit.Inch))
	value := func(text string) fieldkit.Value {
		v, err := fieldkit.ParseValue(text)
		assert.NoError(t, err)
		return v
	}
	for want, f := range map[string]repair.Figure{
		"at least 3 mm (0.118 in)":        {Low: value("3 mm")},
		"0.03 to 0.13 mm (0.001 to 0.005": {Low: value("0.001 in"), High: value("0.005 in")},
		"5 to 6; ":                        {Low: value("5"), High: value("6")},
		"5 mm (0.197 in); ":               {Low: value("5 mm"), High: value("5 mm")},
	} {
		assert.Contains(t, f.Text(fieldkit.Metric), want)
	}
}
