package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// stockEditScreen adds or changes one spare, consumable, tool or bin. The four
// forms differ only in a few lines, so they share one screen.
type stockEditScreen struct {
	app.Compo
	form *form
	kit  fieldkit.Kit
	what string
	id   string
}

func (s *stockEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *stockEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *stockEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	what, id := param(ctx, "what"), param(ctx, "id")
	if _, known := stockWords[what]; !known {
		what = stockSpares
	}
	fresh := stockFields(s.kit, what, id, kept.first())
	if part := param(ctx, "part"); part != "" && fresh["part"] == "" {
		fresh["part"] = part
	}
	if s.form != nil && s.id == id && s.what == what {
		follow(s.form, fresh)
		return
	}
	s.what, s.id = what, id
	s.form = newForm("stock/"+what+"/"+id, fresh)
}

// stockFields fills the form from the record, or with what a new one begins as.
func stockFields(k fieldkit.Kit, what, id string, first fieldkit.System) map[string]string {
	fields := map[string]string{}
	sizes := func(m fieldkit.Mass, v fieldkit.Volume, price *fieldkit.Money) {
		fields["mass"] = amountText(m, first, fieldkit.ParseMass)
		fields["volume"] = amountText(v, first, fieldkit.ParseVolume)
		if price != nil {
			fields["price"] = price.String()
		}
	}
	switch r := stockRecord(k, what, id).(type) {
	case fieldkit.Spare:
		fields = map[string]string{"part": r.Part, "count": itoa(r.Count), "bin": r.Bin, "note": r.Note}
	case fieldkit.Consumable:
		fields = map[string]string{"kind": r.Kind, "name": r.Name, "size": valueText(r.Size, first), "count": itoa(r.Count), "bin": r.Bin, "note": r.Note}
		sizes(r.Mass, r.Volume, r.Price)
	case fieldkit.Tool:
		fields = map[string]string{"kind": r.Kind, "name": r.Name, "owned": yes(r.Owned), "bin": r.Bin, "note": r.Note}
		sizes(r.Mass, r.Volume, r.Price)
	case fieldkit.Bin:
		fields = map[string]string{"name": r.Name, "rig": r.Rig, "place": r.Place, "low": yes(r.Low), "forward": yes(r.Forward), "quick": yes(r.Quick)}
		sizes(r.MassLimit, r.VolumeLimit, nil)
	default:
		fields = map[string]string{"count": "1", "owned": "yes"}
		if len(k.Rigs) > 0 {
			fields["rig"] = k.Rigs[0].ID
		}
		return fields
	}
	fields[baseField] = baseOf(stockRecord(k, what, id))
	return fields
}

// stockRecord finds the record, nil if there is none.
func stockRecord(k fieldkit.Kit, what, id string) fieldkit.Record {
	list, ok := fieldkit.CollectionNamed(what)
	if !ok {
		return nil
	}
	if r, ok := list.Get(k, id); ok {
		return r
	}
	return nil
}

func yes(on bool) string {
	if on {
		return "yes"
	}
	return ""
}

func (s *stockEditScreen) Render() app.UI {
	back := link("/pack/stock", "what", s.what)
	words, ok := stockWords[s.what]
	if s.form == nil || !ok {
		return frame(page{title: "What you own", dest: "/pack", back: link("/pack")})
	}
	title := words.add
	if s.id != "" {
		r := stockRecord(s.kit, s.what, s.id)
		if r == nil {
			return frame(page{title: words.title, dest: "/pack", back: back, body: []app.UI{emptyLine("This is not in the kit any more.")}})
		}
		title = capital(stockName(s.kit, r))
	}
	body := append([]app.UI{s.form.restoredNotice()}, s.fields()...)
	return frame(page{title: title, sub: words.title, dest: "/pack", back: back, body: append(body,
		s.form.saving("Save", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete", "delete "+s.what+s.id, s.delete) }),
	)})
}

func (s *stockEditScreen) fields() []app.UI {
	f := s.form
	bin := f.choose("bin", "Usual bin", "", "none", binOptions(s.kit))
	note := f.area("note", "Note", "")
	sizes := []app.UI{
		f.amount("mass", "Weight of one, as carried", "", " kg", " g", " lb", " oz"),
		f.amount("volume", "Space of one, as packed", "", " L", " mL", " qt"),
		f.text("price", "Price of one", "in "+s.kit.Currency),
	}
	switch s.what {
	case stockSpares:
		return []app.UI{
			f.choose("part", "Part", "weight, space and price are the part's", "choose …", partOptions(s.kit, "")),
			goTo("link", "A part not written down yet", link("/rig/part/edit")),
			f.whole("count", "Pieces owned", ""), bin, note,
		}
	case stockConsumables:
		return append([]app.UI{
			f.choose("kind", "Kind", "repairs ask for consumables by kind", "choose …", consumableOptions(data.Catalog())),
			f.text("name", "Name", "as it stands on the pack"),
			f.amount("size", "One pack holds", "500 mL, 400 g, or a number of pieces", " mL", " L", " g", " qt"),
			f.whole("count", "Packs owned", ""), bin}, append(sizes, note)...)
	case stockTools:
		return append([]app.UI{
			f.choose("kind", "Kind", "repairs ask for tools by kind", "choose …", toolKindOptions(data.Catalog())),
			f.text("name", "Name", ""),
			tick("Owned", "untick for one to buy or borrow", "owned", f.get("owned") != "", func(app.Context) { f.set("owned", toggled(f.get("owned"), "yes")) }),
			bin}, append(sizes, note)...)
	}
	return []app.UI{
		f.text("name", "Name", "drawer, left; tool roll"),
		f.choose("rig", "On which rig", "", "", rigOptions(s.kit)),
		f.text("place", "Where on the rig", "behind the driver's seat"),
		s.trait("low", "Low", "on the floor or near it: heavy things go here"),
		s.trait("forward", "Forward of the rear axle", "heavy things go here"),
		s.trait("quick", "At hand", "reached without unpacking: tools go here"),
		f.amount("mass", "Carries at most", "leave it empty for no limit", " kg", " lb"),
		f.amount("volume", "Holds at most", "leave it empty for no limit", " L", " gal"),
	}
}

// trait is a tick of a bin.
func (s *stockEditScreen) trait(name, label, detail string) app.UI {
	f := s.form
	return tick(label, detail, name, f.get(name) != "", func(app.Context) { f.set(name, toggled(f.get(name), "yes")) })
}

func consumableOptions(cat fieldkit.Catalog) []option {
	var list []option
	for _, c := range cat.Consumables {
		list = append(list, option{c.ID, c.Name})
	}
	return list
}

func toolKindOptions(cat fieldkit.Catalog) []option {
	var list []option
	for _, t := range cat.ToolKinds {
		list = append(list, option{t.ID, t.Name})
	}
	return list
}

func (s *stockEditScreen) save(ctx app.Context) {
	r, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Saved: "+stockName(s.kit, r), r, to(link("/pack/stock", "what", s.what)))
}

func stockName(k fieldkit.Kit, r fieldkit.Record) string {
	switch r := r.(type) {
	case fieldkit.Spare:
		return itemName(k, fieldkit.SpareItem, r.Part)
	case fieldkit.Consumable:
		return r.Name
	case fieldkit.Tool:
		return r.Name
	case fieldkit.Bin:
		return r.Name
	}
	return r.Key()
}

// read makes a record of what was typed; every wrong field is marked.
func (s *stockEditScreen) read() (fieldkit.Record, bool) {
	old := stockRecord(s.kit, s.what, s.id)
	r := stockReader{form: s.form, first: kept.first(), currency: s.kit.Currency, ok: s.form.short()}
	switch s.what {
	case stockSpares:
		sp, known := old.(fieldkit.Spare)
		if !known {
			sp.ID = s.form.recordID()
		}
		sp.Part, sp.Count = r.need("part", "no part is chosen", "choose one"), r.count("count")
		sp.Bin, sp.Note = s.form.get("bin"), s.form.typed("note")
		return sp, r.ok
	case stockConsumables:
		c, known := old.(fieldkit.Consumable)
		if !known {
			c.ID = s.form.recordID()
		}
		c.Kind, c.Name = r.need("kind", "no kind is chosen", "choose one"), r.need("name", "it has no name", "write one")
		c.Size, c.Count = r.size("size"), r.count("count")
		c.Bin, c.Note = s.form.get("bin"), s.form.typed("note")
		c.Mass, c.Volume, c.Price = r.mass(), r.volume(), r.price()
		return c, r.ok
	case stockTools:
		t, known := old.(fieldkit.Tool)
		if !known {
			t.ID = s.form.recordID()
		}
		t.Kind, t.Name = r.need("kind", "no kind is chosen", "choose one"), r.need("name", "it has no name", "write one")
		t.Owned, t.Bin, t.Note = s.form.get("owned") != "", s.form.get("bin"), s.form.typed("note")
		t.Mass, t.Volume, t.Price = r.mass(), r.volume(), r.price()
		return t, r.ok
	}
	b, known := old.(fieldkit.Bin)
	if !known {
		b.ID, b.Order = s.form.recordID(), len(s.kit.Bins)
	}
	b.Name, b.Rig = r.need("name", "it has no name", "write one"), r.need("rig", "no rig is chosen", "choose one")
	b.Place = s.form.typed("place")
	b.MassLimit = quantity(&r, "mass", optionalLimit, fieldkit.ParseMass)
	b.VolumeLimit = quantity(&r, "volume", optionalLimit, fieldkit.ParseVolume)
	b.Low, b.Forward, b.Quick = s.form.get("low") != "", s.form.get("forward") != "", s.form.get("quick") != ""
	return b, r.ok
}

// delete refuses while something still refers to the record, and says what.
func (s *stockEditScreen) delete(ctx app.Context) {
	what, id := s.what, s.id
	old := stockRecord(s.kit, what, id)
	s.form.edit(ctx, "Deleted: "+stockName(s.kit, old), func(e *journal.Edit) error {
		if what == stockBins {
			emptyBins(e, deleted{stockBins: {id: true}}) // what rode in it stays, in no bin
		}
		if n := usesOfStock(e.Kit(), old); n > 0 {
			return &fieldkit.Error{Kind: fieldkit.Conflict,
				What: fmt.Sprintf("%q is still on %d packing lists, in friends' rigs or in the log", stockName(e.Kit(), old), n),
				Do:   "take it off there first, or set its count to nothing"}
		}
		e.Delete(what, id)
		return nil
	}, to(link("/pack/stock", "what", what)))
}

// usesOfStock counts what refers to a consumable or a tool. Nothing refers to a
// spare: lists and log name its part.
func usesOfStock(k fieldkit.Kit, r fieldkit.Record) int {
	n, id := 0, r.Key()
	var kind fieldkit.ItemType
	switch r.(type) {
	case fieldkit.Consumable:
		kind = fieldkit.ConsumableItem
	case fieldkit.Tool:
		kind = fieldkit.ToolItem
	default:
		return 0
	}
	for _, p := range k.Packs {
		for _, l := range p.Lines {
			if l.Type == kind && l.Item == id {
				n++
			}
		}
	}
	for _, t := range k.Trips {
		if t.WithFriends(kind, id) > 0 {
			n++
		}
	}
	for _, f := range k.Failures.All() {
		for _, u := range f.Used {
			if u.Type == kind && u.Item == id {
				n++
			}
		}
	}
	return n
}
