package problemfile

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares/optimum"
)

func TestReadRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, says string }{
		"no object":            {`[]`, "this is no JSON object"},
		"null":                 {`null`, "this is no JSON object"},
		"no limits":            {`{"groups": []}`, "there are no limits"},
		"a file of several":    {`{"instances": []}`, "this file holds several problems"},
		"eleven limits":        {`{"limits": {"a":1,"b":1,"c":1,"d":1,"e":1,"f":1,"g":1,"h":1,"i":1,"j":1,"k":1}, "groups": []}`, "not one to ten"},
		"a limit named loss":   {`{"limits": {"loss": 1}, "groups": []}`, `limits, "loss": this is the name of a field`},
		"a limit named copies": {`{"limits": {"copies": 1}, "items": []}`, `limits, "copies": this is the name of a field`},
		"copies without end":   {`{"limits": {"a": 1}, "groups": [{"id": "x", "loss": 1, "lambda": 1e6, "copies": 1e30}, {"id": "y", "loss": 1, "lambda": 1e6, "copies": 1e7}]}`, "numbers of copies to choose from"},
		"a limit below 0":      {`{"limits": {"a": -1}, "groups": []}`, `limits, "a": -1 is no amount`},
		"a limit in words":     {`{"limits": {"a": "1"}, "groups": []}`, `"1" is no amount`},
		"two forms":            {`{"limits": {"a": 1}, "groups": [], "items": []}`, "two forms"},
		"neither form":         {`{"limits": {"a": 1}}`, "nothing to choose from"},
		"no id":                {`{"limits": {"a": 1}, "items": [{}]}`, "items, number 1: it has no id"},
		"one id twice":         {`{"limits": {"a": 1}, "items": [{"id": "x"}, {"id": "x"}]}`, `the item id "x" is there twice`},
		"an unknown tool":      {`{"limits": {"a": 1}, "groups": [{"id": "x", "lambda": 1, "loss": 1, "tools": ["t"]}]}`, `groups, number 1, tools: nothing has the id "t"`},
		"an unknown position":  {`{"limits": {"a": 1}, "items": [{"id": "x", "fits": ["p"]}]}`, `nothing has the id "p"`},
		"no probability":       {`{"limits": {"a": 1}, "positions": [{"id": "x", "p": 1.5, "loss": 1}]}`, "1.5 cannot be taken; write a number from 0 to 1"},
		"no loss":              {`{"limits": {"a": 1}, "positions": [{"id": "x", "p": 0.5}]}`, "it has no loss"},
		"half a copy":          {`{"limits": {"a": 1}, "items": [{"id": "x", "copies": 0.5}]}`, "0.5 is no number of copies"},
		"no rate":              {`{"limits": {"a": 1}, "groups": [{"id": "x", "loss": 1}]}`, "it has no lambda"},
		"a rate below nothing": {`{"limits": {"a": 1}, "groups": [{"id": "x", "loss": 1, "position_rates": [-1]}]}`, "-1 is no rate"},
		"an amount too large":  {`{"limits": {"a": 1}, "tools": [{"id": "x", "a": 1e15}], "groups": []}`, "1e15 is no amount"},
	} {
		t.Run(name, func(t *testing.T) {
			task, err := Read([]byte(c.text))
			assert.Nil(t, task)
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e)
			assert.Contains(t, err.Error(), c.says)
			assert.NotEmpty(t, e.Do)
		})
	}
}

// Amounts are exact: ten times 0.1 is 1, and not a hair more.
func TestAmountsAreExact(t *testing.T) {
	items, positions := []obj{}, []obj{}
	for i := range 11 {
		items = append(items, obj{"id": i, "a": json.Number("0.1"), "fits": []int{i}})
		positions = append(positions, obj{"id": i, "p": 1, "loss": 1})
	}
	problem := obj{"limits": obj{"a": 1}, "items": items, "positions": positions}
	a := taskOf(t, problem).Solve(optimum.Options{})
	assert.Equal(t, 10.0, a.Value)
	assert.Equal(t, json.Number("1"), a.Used["a"])
	problem["limits"] = obj{"a": json.Number("0.99999999999999999999")}
	a = taskOf(t, problem).Solve(optimum.Options{})
	assert.Equal(t, 9.0, a.Value)
	// Finer than 15 digits: rounded so that the limit holds.
	problem["limits"] = obj{"a": json.Number("123456789.00000000000000000001")}
	items[0]["a"] = json.Number("123456789.000000000000000000015")
	assert.Equal(t, 10.0, taskOf(t, problem).Solve(optimum.Options{}).Value)
}

// A limit may have any name that means nothing else in its form.
func TestLimitsOfAnyName(t *testing.T) {
	a := taskOf(t, obj{"limits": obj{"p": 5, "loss": 3, "": 1}, "positions": []obj{{"id": "x", "p": 1, "loss": 7}},
		"items": []obj{{"id": "s", "p": 5, "loss": 2, "fits": []string{"x"}}}}).Solve(optimum.Options{})
	assert.Equal(t, 7.0, a.Value)
	assert.Equal(t, map[string]json.Number{"p": "5", "loss": "2", "": "0"}, a.Used)
	a = taskOf(t, obj{"limits": obj{"fits": 2}, "groups": []obj{{"id": "g", "loss": 1, "lambda": 1000, "fits": 1, "copies": 3}}}).Solve(optimum.Options{})
	assert.Equal(t, []Carried{{"g", 2}}, a.Items)
}

// However many copies there are, those that count are weighed up: of a demand of a
// million ten thousand and more are all used.
func TestManyCopies(t *testing.T) {
	group := obj{"id": "g", "loss": 1, "lambda": 1e6, "copies": 20_000}
	problem := obj{"limits": obj{"a": 15_000}, "groups": []obj{group}}
	assert.InDelta(t, 20_000, taskOf(t, problem).Solve(optimum.Options{}).Value, 1e-6, "they take nothing")
	group["a"] = 1
	a := taskOf(t, problem).Solve(optimum.Options{})
	assert.InDelta(t, 15_000, a.Value, 1e-6)
	assert.True(t, a.Proved)
	group["lambda"], group["copies"], group["position_rates"] = 1, 1e12, nil
	assert.InDelta(t, 1, taskOf(t, problem).Solve(optimum.Options{}).Value, 1e-12, "by lambda, where rates are null")
}

// FuzzRead: a problem that is read is solved, or given up, within its limits; one that is
// refused says what to do.
func FuzzRead(f *testing.F) {
	f.Add(`{"limits": {"weight": 5}, "positions": [{"id": "p", "p": 0.5, "loss": 2, "tools": [1]}], "items": [{"id": "s", "weight": 2.5, "fits": ["p"]}], "tools": [{"id": 1, "weight": 1e0}]}`)
	f.Add(`{"limits": {"w": 3, "v": 0.7}, "groups": [{"id": "g", "position_rates": [0.5, 1], "loss": 2, "w": 1, "v": 0.2, "copies": 3, "tools": ["t"]}], "tools": [{"id": "t"}]}`)
	f.Add(`{"limits": {"w": 0}, "groups": [{"id": "g", "lambda": 0, "loss": 0, "copies": 0}]}`)
	f.Add(`{"instances": []}`)
	f.Fuzz(func(t *testing.T, text string) {
		task, err := Read([]byte(text))
		if err != nil {
			assert.Nil(t, task)
			assert.NotEmpty(t, err.Error())
			return
		}
		if len(text) > 5000 || strings.Count(text, "copies") > 50 {
			return
		}
		asked := 0
		a := task.Solve(optimum.Options{MaxNodes: 20, KeepGoing: func() bool { asked++; return asked < 2000 }})
		assert.GreaterOrEqual(t, a.Bound, a.Value)
		for l, name := range task.names {
			used, ok := parseDecimal(json.RawMessage(a.Used[name]))
			assert.True(t, ok)
			assert.LessOrEqual(t, used.steps(task.scales[l], true).Int64(), task.limits[l], name)
		}
	})
}
