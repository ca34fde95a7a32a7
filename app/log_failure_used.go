package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// used lists what was taken from stock, with a count each, and offers more.
func (s *failureScreen) used() app.UI {
	f := s.form
	var rows []app.UI
	for _, key := range f.rows("used") {
		item := readUsed(f, key)
		name := itemName(s.kit, item.Type, item.Item)
		rows = append(rows, app.Li().Body(app.Div().Class("row packline").Body(
			app.Div().Class("open plain").Body(app.Span().Class("what").Body(app.B().Text(capital(name)))),
			stepper(name, "used "+key, item.Count, 0, func(_ app.Context, n int) {
				if n == 0 {
					f.dropRow("used", key)
					return
				}
				f.set(cell("used", key, "count"), itoa(n))
			}),
		)))
	}
	more := f.field("used", "Take from stock", "stock goes down when you save", field{
		Kind: "choose", Options: append([]option{{"", "a spare or a consumable …"}}, s.stock...),
	})
	more.Value = ""
	more.OnType = func(_ app.Context, ref string) {
		if ref != "" {
			addUsed(f, ref)
			f.revision++ // the list offers everything again
		}
	}
	return section("Used", app.If(len(rows) > 0, func() app.UI { return app.Ul().Class("list").Body(rows...) }), more)
}

// addUsed counts one more piece of something from stock.
func addUsed(f *form, ref string) {
	for _, key := range f.rows("used") {
		if f.get(cell("used", key, "item")) == ref {
			f.set(cell("used", key, "count"), itoa(readUsed(f, key).Count+1))
			return
		}
	}
	key := f.addRow("used")
	f.set(cell("used", key, "item"), ref)
	f.set(cell("used", key, "count"), "1")
}

// takeable is what can be taken from stock, and the kit it was listed of.
type takeable struct {
	kit     fieldkit.Kit
	options []option
}

// of lists it anew only when something it is made of has changed.
func (t *takeable) of(k fieldkit.Kit) []option {
	if !k.Spares.Same(t.kit.Spares) || !k.Parts.Same(t.kit.Parts) || !one(k.Consumables, t.kit.Consumables) {
		*t = takeable{k, stockOptions(k)}
	}
	return t.options
}

// stockOptions lists what can be taken from stock: what there is first, by name.
func stockOptions(k fieldkit.Kit) []option {
	var have, none []option
	stock := map[string]int{}
	for _, sp := range k.Spares.All() {
		stock[sp.Part] += sp.Count
	}
	seen := map[string]bool{}
	add := func(t fieldkit.ItemType, id, name string, n int) {
		if n > 0 {
			have = append(have, option{string(t) + ":" + id, fmt.Sprintf("%s (%d)", name, n)})
		} else {
			none = append(none, option{string(t) + ":" + id, name + " (none in stock)"})
		}
	}
	for _, sp := range k.Spares.All() {
		if part, ok := k.Part(sp.Part); ok && !seen[sp.Part] {
			seen[sp.Part] = true
			add(fieldkit.SpareItem, sp.Part, part.Name, stock[sp.Part])
		}
	}
	for _, c := range k.Consumables {
		add(fieldkit.ConsumableItem, c.ID, c.Name, c.Count)
	}
	byName := func(a, b option) int { return strings.Compare(strings.ToLower(a.label), strings.ToLower(b.label)) }
	slices.SortStableFunc(have, byName)
	slices.SortStableFunc(none, byName)
	return append(have, none...)
}

func usedCells(it fieldkit.Item) map[string]string {
	return map[string]string{"item": string(it.Type) + ":" + it.Item, "count": itoa(it.Count)}
}

func readUsed(f *form, key string) fieldkit.Item {
	kind, id, _ := strings.Cut(f.get(cell("used", key, "item")), ":")
	n, _ := wholeNumber(f.get(cell("used", key, "count")), 0, 999)
	return fieldkit.Item{Type: fieldkit.ItemType(kind), Item: id, Count: n}
}

// one reports whether two slices are the same.
func one[T any](a, b []T) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }
