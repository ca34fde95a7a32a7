package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

const findHelp = `
fieldkit find [-kit FILE] [-json] [-n N] WORD…

Finds what the words mean in a kit and in the published tables together: parts,
positions with no part yet, donors, tools, consumables, kinds of part, standard
designations and other rows of the tables, by name, trade name, number, donor, year,
side, standard designation or measurement. In a number that was only half read
write ? for one character and * for several. Each hit says why it matched.

` + kitOptionsHelp + `  -n N        at most N hits (default 20)

Options may stand before or after the words; after -- all words are taken as they
are, and so is a dash size such as -214. The status is 1 when nothing is found.

JSON fields: query; hits, best first, each with kind (part, position, donor, kind,
tool, consumable, designation, row), id, title, sub (where it sits, what is in
stock), why (list), part, positions and donor (IDs, where there are any), numbers
(value, issuer, from) and measurements (by name: value and unit; mm, km, kg, L, N·m,
kPa, °C, °, V, A, no unit for counts and texts). A designation has standard (its
kind: ball bearing, O-ring, tyre …), source, parts (IDs of those that bear it) and
as measurements what its standard defines; a row has source and its figures.

Examples:
  fieldkit find brake pads front
  fieldkit find -kit kit.json 'K-44?0'
  fieldkit find -json u-joint 1310
  fieldkit find '62?7 2RS'
  fieldkit find 35 mm bearing
`

// found is what find prints as JSON.
type found struct {
	Query string     `json:"query"`
	Hits  []foundHit `json:"hits"`
}

type foundHit struct {
	Kind         string            `json:"kind"`
	ID           string            `json:"id"`
	Title        string            `json:"title"`
	Sub          string            `json:"sub,omitempty"`
	Why          []string          `json:"why"`
	Standard     string            `json:"standard,omitempty"`
	Source       string            `json:"source,omitempty"`
	Part         string            `json:"part,omitempty"`
	Parts        []string          `json:"parts,omitempty"`
	Positions    []string          `json:"positions,omitempty"`
	Donor        string            `json:"donor,omitempty"`
	Numbers      []foundNumber     `json:"numbers,omitempty"`
	Measurements map[string]amount `json:"measurements,omitempty"`
}

type foundNumber struct {
	Value  string `json:"value"`
	Issuer string `json:"issuer"`
	From   string `json:"from,omitempty"`
}

func findCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("find")
	most := opts.Int("n", 20, "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	query := strings.TrimSpace(strings.Join(words, " "))
	switch {
	case query == "":
		return opts.wrong(stderr, "nothing to find")
	case *most < 1 || *most > lookup.MaxHits:
		return opts.wrong(stderr, "-n is %d and must be from 1 to %d", *most, lookup.MaxHits)
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	hits := lookup.New(kit, data.Catalog(), data.Shelf()).Find(query, *most)
	if *opts.json {
		printJSON(stdout, findAsJSON(kit, query, hits))
	} else {
		printHits(stdout, hits)
	}
	if len(hits) > 0 {
		return done
	}
	fmt.Fprintf(stderr, "fieldkit find: nothing in this kit or in the tables matches %q; try fewer words, or ? for a character that cannot be read\n", query)
	if m := misread(query); m != nil {
		fmt.Fprintf(stderr, "read as %s, %v\n", m.Kind, m)
	}
	return notDone
}

// misread says why a query is no standard designation; nil if hardly anything of it
// reads as one.
func misread(query string) *standards.Misread {
	var m *standards.Misread
	if _, err := data.Handbook().Parse(query); !errors.As(err, &m) || m.At == 0 && len(m.Nearest) == 0 {
		return nil
	}
	return m
}

func findAsJSON(kit fieldkit.Kit, query string, hits []lookup.Hit) found {
	f := found{Query: query, Hits: []foundHit{}}
	for _, h := range hits {
		hit := foundHit{
			Kind: string(h.Kind), ID: h.ID, Title: h.Title, Sub: h.Sub, Why: list(h.Why),
			Part: h.Part, Positions: h.Positions, Donor: h.Donor,
		}
		if h.Kind == lookup.PositionHit {
			hit.Positions = []string{h.ID}
		}
		part, _ := kit.Part(h.Part)
		for _, n := range part.Numbers {
			hit.Numbers = append(hit.Numbers, foundNumber{n.Value, string(n.Issuer), n.From})
		}
		hit.Measurements = measurementsOf(part)
		switch {
		case h.Designation != nil:
			hit.Standard, hit.Source, hit.Parts = string(h.Designation.Kind()), h.Designation.Source(), h.Parts
			hit.Measurements = figuresOf(h.Designation.Dims())
		case h.Row != nil:
			hit.Source, hit.Measurements = h.Row.Source, figuresOf(h.Row.Figures)
		}
		f.Hits = append(f.Hits, hit)
	}
	return f
}

// measurementsOf gives a part's readings by name: of several of one name the last
// one taken on a part that was not worn.
func measurementsOf(p fieldkit.Part) map[string]amount {
	readings, worn := map[string]amount{}, map[string]bool{}
	for _, m := range p.Measurements {
		if _, known := readings[m.Name]; known && m.Worn && !worn[m.Name] {
			continue
		}
		readings[m.Name], worn[m.Name] = amountOf(m.Value), m.Worn
	}
	return readings
}

func figuresOf(dims []standards.Dim) map[string]amount {
	figures := map[string]amount{}
	for _, d := range dims {
		figures[d.Name] = amountOf(d.Value)
	}
	return figures
}

func printHits(w io.Writer, hits []lookup.Hit) {
	for i, h := range hits {
		fmt.Fprintf(w, "%d. %s (%s %s)\n", i+1, h.Title, h.Kind, h.ID)
		if h.Sub != "" {
			fmt.Fprintf(w, "   %s\n", h.Sub)
		}
		fmt.Fprintf(w, "   why: %s\n", strings.Join(h.Why, "; "))
	}
}
