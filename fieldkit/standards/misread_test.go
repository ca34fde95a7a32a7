package standards_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

func misread(t *testing.T, h *standards.Handbook, text string) *standards.Misread {
	t.Helper()
	readings, err := h.Parse(text)
	require.Error(t, err, text)
	require.Nil(t, readings)
	var m *standards.Misread
	require.True(t, errors.As(err, &m))
	var fault *fieldkit.Error
	require.True(t, errors.As(err, &fault))
	assert.Equal(t, fieldkit.BadInput, fault.Kind)
	return m
}

// What cannot be read gives the reason, the place and what is near.
func TestMisread(t *testing.T) {
	h := handbook(t)
	for text, want := range map[string]struct {
		kind standards.Kind
		at   int    // of the character, from 0
		why  string // part of it
		near string // among the nearest
	}{
		"6207 DDU":          {standards.KindBall, 5, `"DDU" is no suffix of the standards`, "6207"},
		"6207-2RQ":          {standards.KindBall, 5, `"2RQ" is no suffix`, "6207-2RS"},
		"6207-2RS ZZ":       {standards.KindBall, 9, `"ZZ" comes after "2RS"`, "6207-2RS"},
		"62O7":              {standards.KindBall, 2, "no ball bearing number begins", "6207"},
		"6207-2R5":          {standards.KindBall, 5, "no suffix", "6207-2RS"},
		"3O207":             {standards.KindTaperMetric, 1, "no metric tapered bearing", "30207"},
		"LM5O1349":          {standards.KindTaperInch, 3, "no cone or cup", "LM501349"},
		"LM501349/LM501348": {standards.KindTaperInch, 16, "no cone or cup", "LM501349/LM501310"},
		"LM501349/LM102910": {standards.KindTaperInch, 9, "is not listed with cup LM102910, but with LM501310", ""},
		"AS568-299":         {standards.KindORing, 6, "AS568 has no -299", "AS568-209"},
		"68x45x10":          {standards.KindSeal, 3, "the bore is not larger", "45x68x10"},
		"9/16-19":           {standards.KindInchThread, 5, "no thread of 9/16 has 19 to the inch", "9/16-18 UNF"},
		"9/16-18 UNC":       {standards.KindInchThread, 8, "9/16-18 is UNF, not UNC", "9/16-18 UNF"},
		"#10-28":            {standards.KindInchThread, 4, "#10 has no 28", "#10-24 UNC"},
		"M14x1.4":           {standards.KindMetricThread, 4, "no thread M14 has a pitch of 1.4 mm", "M14x1.5"},
		"-6":                {standards.KindFitting, 2, "another kind of fitting is missing", "-6 JIC"},
		"-7 JIC":            {standards.KindFitting, 0, "no JIC fitting of this size", "-6 JIC"},
		"315/70Q17":         {standards.KindTyre, 6, "R, D, B or - before the rim", "315/70R17"},
		"316/70R17":         {standards.KindTyre, 0, "ends in 5", "315/70R17"},
		"35x12.50R17LT 121": {standards.KindTyre, 17, "a speed symbol is missing", ""},
		"6PX1795":           {standards.KindBelt, 1, "is not a profile", "6PK1795"},
		"10W-30":            {standards.KindGearOil, 0, "SAE J306 has no 10W", ""},
		"1G4AHS9H45G118341": {standards.KindVIN, 5, "most likely character 6 is 5", "1G4AH59H45G118341"},
		"IG4AH59H45G118341": {standards.KindVIN, 0, "I, O and Q are left out", "1G4AH59H45G118341"},
		"036000291425":      {standards.KindGTIN, 11, "the check digit is 5 and should be 1", "00036000291452"},
		"zebra":             {"", 0, `no designation begins like "zebra"`, ""},
		"":                  {standards.KindBall, 0, "nothing is written", ""},
	} {
		t.Run(text, func(t *testing.T) {
			m := misread(t, h, text)
			assert.Equal(t, want.kind, m.Kind)
			assert.Equal(t, want.at, m.At)
			assert.Contains(t, m.Why, want.why)
			names := ""
			for _, d := range m.Nearest {
				names += d.String() + "; "
				checkDesignation(t, h, d)
			}
			assert.Contains(t, names, want.near)
			assert.Contains(t, m.Error(), m.Why)
		})
	}
}

func TestTooLongIsRefused(t *testing.T) {
	m := misread(t, handbook(t), "6207 "+strings.Repeat("C3", 40))
	assert.Equal(t, standards.MaxText, m.At)
	assert.LessOrEqual(t, len([]rune(m.Text)), standards.MaxText)
}

func TestParseAsOneKind(t *testing.T) {
	h := handbook(t)
	d, err := h.ParseAs(standards.KindBattery, "65")
	require.NoError(t, err)
	assert.Equal(t, "group 65", d.String())

	_, err = h.ParseAs(standards.KindTyre, "6207")
	var m *standards.Misread
	require.True(t, errors.As(err, &m))
	assert.Equal(t, standards.KindTyre, m.Kind)

	_, err = h.ParseAs("shoe size", "44")
	assert.ErrorContains(t, err, `no designations of kind "shoe size"`)
}

func TestOpenSaysWhatIsWrong(t *testing.T) {
	_, err := standards.Open(func(name string) (standards.Table, bool) {
		table, ok := embedded(name)
		return table, ok && name != "orings_as568"
	})
	assert.EqualError(t, err, `there is no table "orings_as568"; bring it along with the program`)

	_, err = standards.Open(func(name string) (standards.Table, bool) {
		table, ok := embedded(name)
		if name == "ball_bearings" {
			table = standards.Table{Columns: table.Columns, Rows: [][]string{{"6207", "wide", "72", "17", "62", "", "deep groove", "high", "ISO 15"}}}
		}
		return table, ok
	})
	assert.EqualError(t, err, `table ball_bearings, row 1, bore_mm: "wide" is not a size; write a decimal`)

	_, err = standards.Open(func(name string) (standards.Table, bool) {
		table, ok := embedded(name)
		if name == "radial_shaft_seals" {
			table.Columns = append([]string{"axle_mm"}, table.Columns[1:]...)
		}
		return table, ok
	})
	assert.EqualError(t, err, `table radial_shaft_seals, row 1, shaft_mm: there is no such column; check the name of the column`)
}
