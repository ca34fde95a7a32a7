package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// A kind with an attribute of every rule.
var pumpKind = fieldkit.PartKind{ID: "pump", Name: "pump", Deciding: []fieldkit.Attribute{
	{Name: "bolts", Dim: fieldkit.DimCount, How: "count", Must: true, Why: "it cannot be bolted down"},
	{Name: "spacing", Dim: fieldkit.DimLength, How: "caliper", Must: true, Why: "it cannot be bolted down"},
	{Name: "port", Dim: fieldkit.DimText, How: "thread gauge", Must: true, Why: "it leaks"},
	{Name: "tank", Dim: fieldkit.DimText, How: "look", Must: true, Why: "it has no inlet"},
	{Name: "barb", Dim: fieldkit.DimLength, How: "caliper", Must: true, Why: "the hose blows off"},
	{Name: "output", Dim: fieldkit.DimCurrent, How: "read", Must: true, Why: "too little"},
	{Name: "grade", Dim: fieldkit.DimText, How: "read", Must: true, Why: "too weak"},
	{Name: "height", Dim: fieldkit.DimLength, How: "tape", Must: true, Why: "it meets the bonnet"},
	{Name: "size", Dim: fieldkit.DimText, How: "read", Must: false, Why: "it settles the rest"},
	{Name: "rubber", Dim: fieldkit.DimText, How: "read", Must: true, Why: "it swells"},
}}

func mm(x float64) Slack {
	return Slack{Amount: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(x * float64(fieldkit.Millimetre))}, Written: true}
}

var pumpSpecs = []Spec{
	{Name: "bolts", Rule: Equal, Source: "common practice"},
	{Name: "spacing", Rule: Within, Below: mm(0.5), Above: mm(0.5), Worn: &Worn{Below: mm(0.3)}, Source: "common practice"},
	{Name: "port", Rule: Equal, Change: &Change{Do: "an adapter"}, Source: "common practice"},
	{Name: "tank", Rule: Equal, Words: []string{"integral|on the body", "remote|on a hose"}, Source: "common practice"},
	{Name: "barb", Rule: Within, Below: mm(0.5), Above: mm(0.5), Change: &Change{Do: "a reducer", Below: mm(4), Above: mm(4)}, Source: "common practice"},
	{Name: "output", Rule: AtLeast, Source: "common practice"},
	{Name: "grade", Rule: AtLeast, Order: []string{"C", "D", "E", "F"}, Source: "SAE J866"},
	{Name: "height", Rule: AtMost, Above: mm(5), Source: "common practice"},
	{Name: "size", Rule: Equal, Settles: []string{"spacing", "bolts"}, Source: "common practice"},
	{Name: "rubber", Rule: Listed, Source: "common practice"},
}

func pump(t *testing.T, careful bool) Schema {
	t.Helper()
	kind := pumpKind
	if careful {
		kind.Caution = "a pump that lets go takes the steering with it"
	}
	s, err := SchemaOf(kind, pumpSpecs)
	require.NoError(t, err)
	return s
}

// ours is what is known of the pump wanted, everything by tool.
var ours = map[string]string{
	"bolts": "4", "spacing": "80 mm", "port": "M16x1.5 O-ring", "tank": "remote", "barb": "16 mm", "output": "90 A",
	"grade": "EF", "height": "150 mm", "size": "K 80", "rubber": "nitrile or FKM",
}

// read makes readings of what people write.
func read(t *testing.T, s Schema, texts map[string]string, how string) Readings {
	t.Helper()
	list := Readings{}
	for name, text := range texts {
		a, ok := s.Named(name)
		require.True(t, ok, name)
		r, err := a.Read(text, how, nil, fieldkit.Metric)
		require.NoError(t, err, "%s %q", name, text)
		list.Set(name, r)
	}
	return list
}

func with(texts map[string]string, changes ...string) map[string]string {
	list := map[string]string{}
	for name, text := range texts {
		list[name] = text
	}
	for i := 0; i+1 < len(changes); i += 2 {
		if changes[i+1] == "" {
			delete(list, changes[i])
		} else {
			list[changes[i]] = changes[i+1]
		}
	}
	return list
}
