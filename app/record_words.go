package app

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"unicode"

	"trailfieldkit/fieldkit"
)

// recordTitle names any record with its kind: position “tie rod end, left”.
func recordTitle(k fieldkit.Kit, r fieldkit.Record) string {
	kind, name := recordNoun[r.Collection()], ""
	part := func(id string) string { p, _ := k.Part(id); return p.Name }
	switch r := r.(type) {
	case fieldkit.Rig:
		name = r.Name
	case fieldkit.Assembly:
		name = r.Name
	case fieldkit.Position:
		name = r.Title()
	case fieldkit.Donor:
		name = r.Title()
	case fieldkit.Part:
		name = r.Name
	case fieldkit.Link:
		name = strings.Join(nonEmpty(part(r.With), part(r.For)), " for ")
	case fieldkit.Bin:
		name = r.Name
	case fieldkit.Spare:
		name = part(r.Part)
	case fieldkit.Consumable:
		name = r.Name
	case fieldkit.Tool:
		name = r.Name
	case fieldkit.Trip:
		name = r.Name
	case fieldkit.Pack:
		t, _ := k.Trip(r.Trip)
		name = t.Name
	case fieldkit.Run:
		p, _ := k.Position(r.Position)
		name = cmp.Or(p.Title(), r.Guide)
	case fieldkit.Failure:
		name = r.What
	case fieldkit.Inspection:
		p, _ := k.Position(r.Position)
		name = strings.Join(nonEmpty(r.Name, p.Title()), ", ")
	case fieldkit.OwnRepair:
		name = r.Title
	case fieldkit.StepNote:
		name = r.Text
	case fieldkit.Visit:
		name = strings.Join(nonEmpty(r.Name, r.Store, r.Kind, r.On.Show()), ", ")
	}
	return cmp.Or(kind, r.Collection()) + " “" + cmp.Or(name, r.Key()) + "”"
}

var recordNoun = map[string]string{
	"rigs": "rig", "systems": "system", "positions": "position", "donors": "donor", "parts": "part", "links": "interchange",
	"bins": "bin", "spares": "spare", "consumables": "consumable", "tools": "tool", "trips": "trip", "packs": "packing list",
	"runs": "repair", "failures": "failure", "inspections": "reading", "visits": "visit",
	"ownRepairs": "own repair", "stepNotes": "note at a step",
}

// fieldWords puts the name of a field of the kit file in words: "fittedAt" is
// "fitted at", "lines/spare joint" is "lines".
func fieldWords(field string) string {
	field, _, _ = strings.Cut(field, "/")
	var b strings.Builder
	for _, r := range field {
		if unicode.IsUpper(r) {
			b.WriteByte(' ')
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}

// valueWords puts a value of the kit file in words. IDs are given as names.
func valueWords(k fieldkit.Kit, field string, raw []byte) string {
	var v any
	if len(raw) == 0 || json.Unmarshal(raw, &v) != nil || v == nil {
		return "nothing"
	}
	return short(anyWords(k, field, v), 160)
}

func anyWords(k fieldkit.Kit, field string, v any) string {
	switch v := v.(type) {
	case string:
		return "“" + nameOfID(k, field, v) + "”"
	case bool:
		return map[bool]string{true: "yes", false: "no"}[v]
	case []any:
		var list []string
		for _, one := range v {
			list = append(list, anyWords(k, field, one))
		}
		return cmp.Or(strings.Join(list, "; "), "nothing")
	case map[string]any:
		var list []string
		for _, name := range slices.Sorted(maps.Keys(v)) {
			list = append(list, fieldWords(name)+" "+anyWords(k, name, v[name]))
		}
		return strings.Join(list, ", ")
	}
	raw, _ := json.Marshal(v) // a number that was read as JSON
	return string(raw)
}

// nameOfID gives the name of what an ID leads to, the text itself if it leads nowhere.
func nameOfID(k fieldkit.Kit, field, id string) string {
	collection := map[string]string{"part": "parts", "for": "parts", "with": "parts", "item": "parts", "donor": "donors", "bin": "bins",
		"rig": "rigs", "rigs": "rigs", "trip": "trips", "position": "positions", "parent": "positions", "system": "systems"}[field]
	c, ok := fieldkit.CollectionNamed(collection)
	if !ok {
		return id
	}
	r, ok := c.Get(k, id)
	if !ok {
		return id
	}
	_, name, _ := strings.Cut(recordTitle(k, r), "“")
	return strings.TrimSuffix(name, "”")
}

// short cuts a text that is long for one line.
func short(text string, most int) string {
	if list := []rune(text); len(list) > most {
		return string(list[:most]) + "…"
	}
	return text
}
