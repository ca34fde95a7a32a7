package repair_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/repair"
)

// Each case breaks one rule of the sound file and names where and what is said.
func TestLoadRefuses(t *testing.T) {
	sound := string(gateFile(t))
	for name, c := range map[string]struct {
		old, new      string
		pointer, what string
	}{
		"another format":         {`"trail-field-kit repairs"`, `"gates"`, "/format", `"gates" is not the format of repairs`},
		"a newer version":        {`"version": "1.0"`, `"version": "2.0"`, "/version", `version "2.0"`},
		"unknown field":          {`"hands": 2`, `"hands": 2, "feet": 1`, "/repairs/0/feet", `"feet" is not a field here`},
		"missing field":          {`"hands": 2,`, ``, "/repairs/0/hands", `"hands" is missing`},
		"no hands":               {`"hands": 2`, `"hands": 0`, "/repairs/0/hands", "0 hands cannot do it"},
		"no time":                {`"45 min"`, `"0 min"`, "/repairs/0/time", "the time is missing"},
		"empty title":            {`"Gate hinge"`, `" "`, "/repairs/0/title", "the title is missing"},
		"no symptoms":            {`["gate scrapes when opened", "hinge squeaks"]`, `[]`, "/repairs/0/symptoms", "symptoms are missing"},
		"odd ID":                 {`"id": "gate-hinge"`, `"id": "Gate hinge"`, "/repairs/0/id", `"Gate hinge" cannot be an ID`},
		"trait without options":  {`"suits": {"post": ["wood", "steel"]}`, `"suits": {"post": []}`, "/repairs/0/suits/post", "no option of the trait is named"},
		"no verdict left":        {`{"verdict": "no", "why": "the post may fall"}`, `{"when": {"post": ["stone"]}, "verdict": "no", "why": "it may fall"}`, "/repairs/0/roll", "there is no verdict for the rigs that are left"},
		"verdict hides others":   {`{"when": {"post": ["wood"]}, "verdict": "yes"`, `{"verdict": "yes"`, "/repairs/0/roll/0", "those after it never apply"},
		"odd verdict":            {`"verdict": "yes"`, `"verdict": "perhaps"`, "/repairs/0/roll/0/verdict", `"perhaps" is not a verdict`},
		"limits missing":         {`"why": "rope stretches", "note": "open it by hand only"`, `"why": "rope stretches"`, "/repairs/0/afterFieldFix/0", "the limits are missing"},
		"tool of no count":       {`"why": "turns the screws", "count": 1`, `"why": "turns the screws", "count": 0`, "/repairs/0/tools/0/count", "0 is not a count"},
		"tool without a why":     {`"turns the screws"`, `""`, "/repairs/0/tools/0/why", "what the tool is for is missing"},
		"tool not listed":        {`"tools": ["saw"]`, `"tools": ["saw", "axe"]`, "/repairs/0/steps/2/tools/1", `the tool "axe" is not listed`},
		"tool not used":          {`, "tools": ["saw"]`, ``, "/repairs/0/tools/1", `no step uses the tool "saw"`},
		"tool listed twice":      {`"kind": "saw"`, `"kind": "driver"`, "/repairs/0/tools/1", "is listed twice"},
		"consumable not listed":  {`{"kind": "oil", "amount": "300 mL"}, `, ``, "/repairs/0/steps/5/consumables/0", `the consumable "oil" is not listed`},
		"amount of nothing":      {`"300 mL"`, `"0 mL"`, "/repairs/0/consumables/0/amount", "is not an amount"},
		"part not used":          {`"parts": ["hinge"],`, ``, "/repairs/0/parts/0", `no step uses the part "hinge"`},
		"step ID twice":          {`"id": "paint"`, `"id": "oil"`, "/repairs/0/steps/7/id", `the step "oil" is there twice`},
		"step called end":        {`"id": "paint"`, `"id": "end"`, "/repairs/0/steps/7/id", `no step can be called "end"`},
		"step too long":          {`Cut the rot away.`, strings.Repeat("Cut. ", 49), "/repairs/0/steps/2/text", "245 characters long, the most is 240"},
		"odd stage":              {`"stage": "put back"`, `"stage": "later"`, "/repairs/0/steps/7/stage", `"later" is not a stage`},
		"odd hazard":             {`"hazards": ["lifting"]`, `"hazards": ["lifting", "bears"]`, "/repairs/0/steps/0/hazards/1", `"bears" is not a kind of hazard`},
		"hazard without caution": {`"hazards": ["lifting"]`, `"hazards": ["lifting", "road"]`, "/repairs/0/steps/0/hazards/1", `the hazard "road" has no caution in front`},
		"caution without mark":   {`"hazards": ["lifting"],`, ``, "/repairs/0/steps/0/cautions/0/kind", `the step is not marked "lifting"`},
		"caution without harm":   {`"It crushes toes."`, `""`, "/repairs/0/steps/0/cautions/0/harm", "the harm it does is missing"},
		"one answer":             {"{\"answer\": \"Yes\", \"next\": \"oil\"},\n            {\"answer\": \"No\"},\n", "", "/repairs/0/steps/3/options", "two answers or more"},
		"same answer twice":      {`{"answer": "No"}`, `{"answer": "Yes"}`, "/repairs/0/steps/3/options/1/answer", "is there twice"},
		"nobody may be unsure":   {`{"answer": "I do not know", "unsure": true}`, `{"answer": "Maybe"}`, "/repairs/0/steps/3/options", "0 answers are for who cannot tell"},
		"two are unsure":         {`{"answer": "No"}`, `{"answer": "No", "unsure": true}`, "/repairs/0/steps/3/options", "2 answers are for who cannot tell"},
		"unsure yet sound":       {`"unsure": true, "next": "spare"`, `"unsure": true, "sound": true, "next": "spare"`, "/repairs/0/steps/1/options/2/sound", "has not found it sound"},
		"a trait is unsure":      {`"unsure": true, "next": "spare"`, `"when": {"post": ["stone"]}, "unsure": true, "next": "spare"`, "/repairs/0/steps/1/options/2/when", "no trait can say"},
		"question leads on":      {`"text": "Have you a hinge?",`, `"text": "Have you a hinge?", "next": "oil",`, "/repairs/0/steps/3/next", "a question goes on where its answers lead"},
		"no such step":           {`"next": "swing"`, `"next": "swim"`, "/repairs/0/steps/4/next", `there is no step "swim"`},
		"leads back":             {`"next": "swing"`, `"next": "saw"`, "/repairs/0/steps/4/next", `it leads back to "saw"`},
		"answer leads to itself": {`{"answer": "Yes", "next": "oil"}`, `{"answer": "Yes", "next": "spare"}`, "/repairs/0/steps/3/options/0/next", "it leads back"},
		"no way leads there":     {`{"answer": "Yes", "next": "oil"}`, `{"answer": "Yes", "next": "swing"}`, "/repairs/0/steps/5", `no way leads to the step "oil"`},
		"torque upside down":     {`"low": "19 N·m"`, `"low": "29 N·m"`, "/repairs/0/steps/6/torques/0", "is not a range"},
		"torque of no fastener":  {`"thread": "M8x1.25", `, ``, "/repairs/0/steps/6/torques/0", "needs its thread and grade"},
		"torque of no unit":      {`"low": "19 N·m"`, `"low": "19"`, "/repairs/0/steps/6/torques/0/low", "has no unit"},
		"odd source":             {`"common practice"`, `"a friend"`, "/repairs/0/steps/6/figures/0/source", `"a friend" is not a source`},
		"figure without limit":   {`"high": "0.5 in", `, ``, "/repairs/0/steps/6/figures/0", "the limit is missing"},
		"figure of two kinds":    {`"high": "0.5 in", `, `"low": "1 kg", "high": "0.5 in", `, "/repairs/0/steps/6/figures/0", "is not a range"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, sound, c.old)
			broken := strings.Replace(sound, c.old, c.new, 1)
			guides, err := repair.LoadGuides("gate.json", []byte(broken))
			assert.Empty(t, guides)
			var found *kitfile.Problems
			require.True(t, errors.As(err, &found), "%v", err)
			for _, p := range found.List {
				assert.Positive(t, p.Line, "%s has no line", p.Pointer)
				if p.Pointer == c.pointer && strings.Contains(p.What, c.what) {
					assert.NotEmpty(t, p.Do)
					return
				}
			}
			t.Errorf("not found at %s: %q in\n%v", c.pointer, c.what, err)
		})
	}
}

func TestLoadSaysLine(t *testing.T) {
	broken := strings.Replace(string(gateFile(t)), `"next": "swing"`, `"next": "swim"`, 1)
	_, err := repair.LoadGuides("gate.json", []byte(broken))
	assert.ErrorContains(t, err, `gate.json, line 62, repair "gate-hinge", step "tie", next: there is no step "swim"`)
}

func TestSameRepairTwice(t *testing.T) {
	text := string(gateFile(t))
	body := text[strings.Index(text, "[\n    {")+1 : strings.LastIndex(text, "]")]
	twice := strings.Replace(text, body, body+","+body, 1)
	_, err := repair.LoadGuides("gate.json", []byte(twice))
	assert.ErrorContains(t, err, `the repair "gate-hinge" is there twice`)
}

func TestNewerFileIsTooNew(t *testing.T) {
	_, err := repair.LoadGuides("gate.json", []byte(strings.Replace(string(gateFile(t)), `"version": "1.0"`, `"version": "2.0"`, 1)))
	var told *fieldkit.Error
	require.True(t, errors.As(err, &told))
	assert.Equal(t, fieldkit.TooNew, told.Kind)
}

func TestCheckCatalog(t *testing.T) {
	g := gate(t)
	full := fieldkit.Catalog{
		PartKinds:   []fieldkit.PartKind{{ID: "hinge"}},
		ToolKinds:   []fieldkit.ToolKind{{ID: "driver"}, {ID: "saw"}},
		Consumables: []fieldkit.ConsumableKind{{ID: "oil"}, {ID: "rope"}},
		Traits:      []fieldkit.Trait{{ID: "post", Options: []string{"wood", "steel"}}},
	}
	assert.Empty(t, repair.CheckCatalog(g, full))

	pointers := func(cat fieldkit.Catalog) (list []string) {
		for _, p := range repair.CheckCatalog(g, cat) {
			list = append(list, p.Pointer)
		}
		return list
	}
	less := full
	less.ToolKinds, less.Consumables = full.ToolKinds[:1], full.Consumables[:1]
	assert.Equal(t, []string{"/tools/1/kind", "/consumables/1/kind"}, pointers(less))
	less = full
	less.PartKinds = nil
	assert.Equal(t, []string{"/partKinds/0", "/parts/0/kind"}, pointers(less))
	less = full
	less.Traits = []fieldkit.Trait{{ID: "post", Options: []string{"steel"}}}
	assert.Equal(t, []string{"/suits/post", "/roll/0/when/post", "/steps/1/options/0/when/post"}, pointers(less))
	less.Traits = nil
	assert.Equal(t, []string{"/suits", "/roll/0/when", "/roll/1/when", "/steps/7/only", "/steps/1/options/0/when", "/steps/1/options/1/when"}[:3], pointers(less)[:3])
}

// FuzzLoadGuides holds two laws: a refused file gives no guide and a *Problems with
// lines; an accepted guide can be followed to its end from every step, whatever
// the rig.
func FuzzLoadGuides(f *testing.F) {
	sound := string(gateFile(f))
	f.Add([]byte(sound))
	f.Add([]byte(strings.Replace(sound, `"next": "swing"`, `"next": "saw"`, 1)))
	f.Add([]byte(strings.Replace(sound, `"unsure": true`, `"unsure": false`, 1)))
	f.Add([]byte(`{"format":"trail-field-kit repairs","version":"1.0","source":"","repairs":[]}`))
	f.Add([]byte(`{"format":"trail-field-kit repairs","version":"1.0","source":"x","repairs":[{"id":"a","steps":[{"id":"a","next":"a"}]}]}`))
	f.Add([]byte(`{"repairs":[{}]}`))
	f.Add([]byte(``))
	f.Fuzz(func(t *testing.T, data []byte) {
		guides, err := repair.LoadGuides("fuzz.json", data)
		if err != nil {
			require.Nil(t, guides)
			var found *kitfile.Problems
			require.True(t, errors.As(err, &found), "%T", err)
			require.NotEmpty(t, found.List)
			for _, p := range found.List {
				require.Positive(t, p.Line)
			}
			return
		}
		for _, g := range guides {
			for _, rig := range []fieldkit.Rig{unknown, wooden, steel} {
				toTheEnd(t, g, rig, func(n int) int { return 0 })
				toTheEnd(t, g, rig, func(n int) int { return n - 1 })
				_ = g.Text(fieldkit.Catalog{}, rig, fieldkit.Inch)
			}
		}
	})
}
