package tables

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func TestEveryTableLoads(t *testing.T) {
	entries, err := files.ReadDir(".")
	require.NoError(t, err)
	assert.Len(t, Names(), len(entries), "files and descriptions")
	all := Tables()
	require.Len(t, all, len(entries))
	for i, table := range all {
		assert.Equal(t, Names()[i], table.Name)
		if i > 0 {
			assert.Less(t, all[i-1].Name, table.Name)
		}
		file, ok := File(table.Name)
		require.True(t, ok)
		assert.Equal(t, strings.Count(string(file), "\n"), len(table.Rows)+1, "%s: a row is a line", table.Name)
		assert.NotEmpty(t, table.Title, table.Name)
		assert.NotEmpty(t, table.Standard, table.Name)
		assert.NotEmpty(t, table.Key, table.Name)
		assert.NotEmpty(t, table.Sources, table.Name)
		outline, rows, ok := Outline(table.Name)
		require.True(t, ok)
		assert.Equal(t, len(table.Rows), rows, table.Name)
		assert.Equal(t, table.Columns, outline.Columns, table.Name)
		names := map[string]bool{}
		for _, c := range table.Columns {
			assert.False(t, names[c.Name], "%s: %s stands twice", table.Name, c.Name)
			names[c.Name] = true
			assert.NotEmpty(t, c.What, "%s: %s", table.Name, c.Name)
			assert.False(t, strings.HasSuffix(c.What, "."), "%s: %s is a phrase", table.Name, c.Name)
		}
		for _, key := range table.Key {
			assert.True(t, names[key], "%s: %s", table.Name, key)
		}
		for r, cells := range table.Rows {
			var key []string
			for _, name := range table.Key {
				key = append(key, table.Cell(r, name))
			}
			found, ok := table.Row(key...)
			assert.True(t, ok && found == r, "%s: %v", table.Name, key)
			assert.Len(t, cells, len(table.Columns))
		}
	}
}

func TestUnknownTable(t *testing.T) {
	_, ok := TableNamed("teapots")
	assert.False(t, ok)
	_, ok = File("teapots")
	assert.False(t, ok)
	_, _, ok = Outline("teapots")
	assert.False(t, ok)
	_, ok = File("../kits")
	assert.False(t, ok)
	_, err := Load("teapots", []byte("a\n"))
	var fault *fieldkit.Error
	require.True(t, errors.As(err, &fault))
	assert.Equal(t, fieldkit.NotFound, fault.Kind)
}

// The speed symbols stand for all tables: a broken file is refused with its line,
// the value and the rule, and leaves nothing half-read.
func TestLoadRefuses(t *testing.T) {
	const head = "symbol,max_speed_km_h,max_speed_mph,confidence,source\n"
	const good = "Q,160,99,high,ETRTO\n"
	for name, c := range map[string]struct{ file, says string }{
		"nothing":               {"", "speed_symbols.csv: the file is empty"},
		"blank lines":           {"\n\n", "line 2: the line is blank"},
		"blank line at the end": {head + good + "\n", "line 3: the line is blank"},
		"blank line between":    {head + "\n" + good, "line 2: the line is blank"},
		"not UTF-8":             {head + "\xff,160,99,high,ETRTO\n", "the file is not UTF-8"},
		"byte order mark":       {"\ufeff" + head + good, "byte order mark"},
		"carriage return":       {head + "Q,160,99,high,ETRTO\r\n", `line 2: the line ends with a carriage return`},
		"open last line":        {head + strings.TrimSuffix(good, "\n"), "the last line does not end"},
		"column missing":        {"symbol,max_speed_km_h,max_speed_mph,confidence\nQ,160,99,high\n", `line 1: column "source" is missing`},
		"column renamed":        {strings.Replace(head, "mph", "knots", 1) + good, `line 1: column 3 is called "max_speed_knots" instead of "max_speed_mph"`},
		"column unknown":        {strings.TrimSuffix(head, "\n") + ",shade\nQ,160,99,high,ETRTO,red\n", `line 1: column "shade" is not known`},
		"cell too few":          {head + "Q,160,high,ETRTO\n", "line 2: wrong number of fields"},
		"stray quote":           {head + "Q,160,99,high,\"ETRTO\" or so\n", "line 2: "},
		"word for a number":     {head + good + "R,fast,106,high,ETRTO\n", `line 3, max_speed_km_h: "fast" is not a number; write digits with a decimal point`},
		"comma in a number":     {head + "Q,\"1,60\",99,high,ETRTO\n", `line 2, max_speed_km_h: "1,60" is not a number`},
		"exponent":              {head + "Q,1e2,99,high,ETRTO\n", `"1e2" is not a number`},
		"not a number":          {head + "Q,NaN,99,high,ETRTO\n", `"NaN" is not a number`},
		"open point":            {head + "Q,160.,99,high,ETRTO\n", `"160." is not a number`},
		"below the bounds":      {head + "Q,1.6,99,high,ETRTO\n", `line 2, max_speed_km_h: "1.6" is not between 5 and 350`},
		"above the bounds":      {head + "Q,160,990,high,ETRTO\n", `line 2, max_speed_mph: "990" is not between 2 and 220`},
		"figure missing":        {head + "Q,,99,high,ETRTO\n", "line 2, max_speed_km_h: nothing is written"},
		"key missing":           {head + ",160,99,high,ETRTO\n", "line 2, symbol: nothing is written"},
		"source missing":        {head + "Q,160,99,high,\n", "line 2, source: nothing is written"},
		"confidence missing":    {head + "Q,160,99,,ETRTO\n", "line 2, confidence: nothing is written"},
		"confidence unknown":    {head + "Q,160,99,certain,ETRTO\n", `line 2, confidence: "certain" is none of high, medium, low`},
		"blanks around":         {head + "Q ,160,99,high,ETRTO\n", `line 2, symbol: "Q " has blanks around it`},
		"line break in a cell":  {head + "Q,160,99,high,\"ETRTO\nISO\"\n", "line 2, source: "},
		"key twice":             {head + good + "R,170,106,high,ETRTO\n" + good, `line 4: "Q" stands on line 2 already; keep one of the two rows`},
		"too large":             {head + good + strings.Repeat("x", MaxFile), "more than the most"},
	} {
		t.Run(name, func(t *testing.T) {
			table, err := Load("speed_symbols", []byte(c.file))
			var fault *fieldkit.Error
			require.True(t, errors.As(err, &fault), "%v", err)
			assert.Contains(t, err.Error(), c.says)
			assert.NotEmpty(t, fault.Do)
			assert.Equal(t, Table{}, table)
		})
	}
	table, err := Load("speed_symbols", []byte(head+good))
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"Q", "160", "99", "high", "ETRTO"}}, table.Rows)
	assert.Equal(t, []Source{{"ETRTO", 1}}, table.Sources)
}

func TestLoadReadsSeveralNumbers(t *testing.T) {
	const head = "trade_number,also_known_as,base,volts,watts,function,confidence,source\n"
	for cell, ok := range map[string]bool{"12.8/14.0": true, "12": true, "12-14": true, "": true, "12/dim": false, "12.8/140": false} {
		_, err := Load("bulbs", []byte(head+"1157,,BAY15d,"+cell+",27/8,stop,high,ANSI\n"))
		assert.Equal(t, ok, err == nil, "%q: %v", cell, err)
	}
}

// Whatever is read as a table is refused or holds what its description promises.
func FuzzLoad(f *testing.F) {
	for _, name := range []string{"speed_symbols", "ujoints", "bulbs"} {
		file, _ := File(name)
		f.Add(name, file)
	}
	f.Add("load_range", []byte("letter,ply_rating,confidence,source\nA,2,high,\"a, b; c\"\n"))
	f.Add("load_range", []byte("letter,ply_rating,confidence,source\nA,2,high,\"a\n\"\n"))
	f.Fuzz(func(t *testing.T, name string, file []byte) {
		table, err := Load(name, file)
		if err != nil {
			var fault *fieldkit.Error
			require.True(t, errors.As(err, &fault))
			require.Empty(t, table.Rows)
			return
		}
		for r, cells := range table.Rows {
			require.Len(t, cells, len(table.Columns))
			require.NotEmpty(t, table.Cell(r, "source"))
			for _, c := range table.Columns {
				v, ok := table.Value(r, c.Name)
				require.Equal(t, table.Cell(r, c.Name) != "", ok)
				require.Equal(t, ok, v.Show(fieldkit.Metric) != "")
			}
		}
	})
}

func TestValue(t *testing.T) {
	value := func(name, column string, key ...string) string {
		table, ok := TableNamed(name)
		require.True(t, ok, name)
		row, ok := table.Row(key...)
		require.True(t, ok, key)
		v, ok := table.Value(row, column)
		if !ok {
			return "blank"
		}
		return string(v.Dim) + " " + v.String()
	}
	assert.Equal(t, "length 35 mm", value("ball_bearings", "bore_mm", "6207"))
	assert.Equal(t, "length 0.984 in", value("orings_as568", "id_in", "214"))
	assert.Equal(t, "mass 1450 kg", value("load_index", "load_kg", "121"))
	assert.Equal(t, "temperature 205 °C", value("brake_fluid", "dry_boiling_min_C", "DOT 3"))
	assert.Equal(t, "current 7.5 A", value("fuses", "rating_A", "regular ATO/ATC", "7.5"))
	assert.Equal(t, "count 12", value("hose_clamps", "sae_size", "12"))
	assert.Equal(t, "text 160 km/h", value("speed_symbols", "max_speed_km_h", "Q"))
	assert.Equal(t, "text 58 mm²", value("threads_metric", "stress_area_mm2", "M10x1.5"))
	assert.Equal(t, "text 12.8/14.0 V", value("bulbs", "volts", "1157"))
	assert.Equal(t, "text UNF", value("threads_inch", "series", "1/2-20 UNF"))
	assert.Equal(t, "blank", value("ujoints", "torque_rating_lbf_ft", "1310"))

	table, _ := TableNamed("wire_awg")
	_, ok := table.Row("12", "more")
	assert.False(t, ok)
	row, _ := table.Row("12")
	x, ok := table.Number(row, "area_mm2")
	assert.True(t, ok)
	assert.Equal(t, 3.309, x)
	_, ok = table.Number(row, "source")
	assert.False(t, ok)
	assert.Panics(t, func() { table.Cell(row, "bore_mm") })
	assert.Equal(t, -1, table.Column("bore_mm"))
}
