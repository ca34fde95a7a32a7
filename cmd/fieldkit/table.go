package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"trailfieldkit/data/tables"
)

const tableHelp = `
fieldkit table [-json] [NAME]

Lists the published tables the program brings along: name, number of rows, title and
sources (with the number of rows each stands behind). With a name it prints that table
as CSV, byte for byte as it is embedded. Each row ends with how far it can be trusted
(high, medium, low) and its source; a blank cell is a figure that is not known.

  -json       print one JSON object instead of text

The status is 1 when there is no table of that name; the nearest names are shown.

JSON fields without a name: tables, sorted by name, each with name, rows (their
number), title, standard, key (the columns that tell a row from all others), columns
(name, unit, what) and sources (source, rows), most used first. With a name: the same
fields of that table, but rows is the list of its rows, each an object of column names
and cells, written as in the CSV.

Examples:
  fieldkit table
  fieldkit table ball_bearings
  fieldkit table -json threads_inch
`

// tableList is what table prints as JSON without a name, wholeTable with one.
type tableList struct {
	Tables []listedTable `json:"tables"`
}

type listedTable struct {
	Name string `json:"name"`
	Rows int    `json:"rows"`
	tableFacts
}

type wholeTable struct {
	Name string `json:"name"`
	tableFacts
	Rows []map[string]string `json:"rows"`
}

type tableFacts struct {
	Title    string         `json:"title"`
	Standard string         `json:"standard"`
	Key      []string       `json:"key"`
	Columns  []listedColumn `json:"columns"`
	Sources  []listedSource `json:"sources"`
}

type listedColumn struct {
	Name string `json:"name"`
	Unit string `json:"unit"`
	What string `json:"what"`
}

type listedSource struct {
	Source string `json:"source"`
	Rows   int    `json:"rows"`
}

func tableCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	set := options("table")
	opts := kitOptions{FlagSet: set, json: set.Bool("json", false, "")}
	words, ok := opts.read(args, stderr)
	switch {
	case !ok:
		return askedWrong
	case len(words) > 1:
		return opts.wrong(stderr, "%q is one word too many", words[1])
	case len(words) == 0 && *opts.json:
		all := tableList{}
		for _, t := range tables.Tables() {
			all.Tables = append(all.Tables, listedTable{t.Name, len(t.Rows), factsOf(t)})
		}
		printJSON(stdout, all)
		return done
	case len(words) == 0:
		printTables(stdout, tables.Tables())
		return done
	}
	name := words[0]
	t, ok := tables.TableNamed(name)
	switch {
	case !ok:
		do := "run fieldkit table to see them"
		if near := nearestTables(name); len(near) > 0 {
			do = "the nearest are " + strings.Join(near, ", ")
		}
		fmt.Fprintf(stderr, "fieldkit table: there is no table %q; %s\n", name, do)
		return notDone
	case *opts.json:
		printJSON(stdout, wholeTable{t.Name, factsOf(t), rowsOf(t)})
	default:
		file, _ := tables.File(name)
		if _, err := stdout.Write(file); err != nil {
			return complain(stderr, "table", err)
		}
	}
	return done
}

func printTables(w io.Writer, all []tables.Table) {
	for _, t := range all {
		fmt.Fprintf(w, "%-20s %4d rows  %s\n", t.Name, len(t.Rows), t.Title)
		var sources []string
		for _, s := range t.Sources {
			sources = append(sources, fmt.Sprintf("%s (%d)", s.Text, s.Rows))
		}
		fmt.Fprintf(w, "%21ssources: %s\n", "", strings.Join(sources, "; "))
	}
}

func factsOf(t tables.Table) tableFacts {
	facts := tableFacts{Title: t.Title, Standard: t.Standard, Key: t.Key}
	for _, c := range t.Columns {
		facts.Columns = append(facts.Columns, listedColumn{c.Name, c.Unit, c.What})
	}
	for _, s := range t.Sources {
		facts.Sources = append(facts.Sources, listedSource{s.Text, s.Rows})
	}
	return facts
}

func rowsOf(t tables.Table) []map[string]string {
	rows := make([]map[string]string, len(t.Rows))
	for i, cells := range t.Rows {
		rows[i] = map[string]string{}
		for c, cell := range cells {
			rows[i][t.Columns[c].Name] = cell
		}
	}
	return rows
}

// nearestTables names up to three tables that a word may have meant: by their title,
// or because few characters differ from their name or a word of it.
func nearestTables(typed string) []string {
	typed = strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(strings.TrimSuffix(typed, ".csv")))
	cost := map[string]int{}
	for _, name := range tables.Names() {
		outline, _, _ := tables.Outline(name)
		least := changes(typed, name)
		for word := range strings.SplitSeq(name, "_") {
			for part := range strings.SplitSeq(typed, "_") {
				least = min(least, changes(part, word)+1)
			}
		}
		switch {
		case strings.Contains(name, typed):
			least = 0
		case strings.Contains(strings.ToLower(outline.Title), strings.ReplaceAll(typed, "_", " ")):
			least = min(least, 1)
		}
		cost[name] = least
	}
	near := slices.DeleteFunc(slices.Clone(tables.Names()), func(name string) bool { return 2*cost[name] > len(typed)+1 })
	slices.SortStableFunc(near, func(a, b string) int { return cmp.Compare(cost[a], cost[b]) })
	return near[:min(3, len(near))]
}

// changes counts the characters to put in, take out or replace to get from a to b.
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			step := diagonal
			if a[i] != b[j] {
				step++
			}
			diagonal = row[j+1]
			row[j+1] = min(step, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
