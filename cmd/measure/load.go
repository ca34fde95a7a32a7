package main

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/largekit"
	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/lookup"
)

// loadSizes are the kits that are tried: of the demo's size, ten and a hundred times.
var loadSizes = []int{1, 10, 100}

// figure is one line of a table with a column for each size of kit.
type figure struct {
	name  string
	cells []string
}

// figures gathers the lines of such a table, in the order they were first noted.
type figures []*figure

func (f *figures) note(name, cell string) {
	for _, line := range *f {
		if line.name == name {
			line.cells = append(line.cells, cell)
			return
		}
	}
	*f = append(*f, &figure{name, []string{cell}})
}

// print ends each line with its growth, the last figure over the first: 1.0 is what
// costs the same in a kit of any size.
func (f figures) print(out io.Writer, title string) {
	fmt.Fprintf(out, "%-46s", title)
	for _, size := range loadSizes {
		fmt.Fprintf(out, " %11s", fmt.Sprintf("%d x", size))
	}
	fmt.Fprintf(out, " %8s\n", "growth")
	for _, line := range f {
		fmt.Fprintf(out, "%-46s", line.name)
		for _, c := range line.cells {
			fmt.Fprintf(out, " %11s", c)
		}
		fmt.Fprintf(out, "%s %8s\n", strings.Repeat(" ", 12*(len(loadSizes)-len(line.cells))), line.growth())
	}
	fmt.Fprintln(out)
}

// growth is nothing where the figures do not tell it.
func (f *figure) growth() string {
	if len(f.cells) < len(loadSizes) || len(loadSizes) < 2 {
		return ""
	}
	first, err := strconv.ParseFloat(f.cells[0], 64)
	last, err2 := strconv.ParseFloat(f.cells[len(f.cells)-1], 64)
	if err != nil || err2 != nil || first == 0 {
		return ""
	}
	return fmt.Sprintf("%.1f", last/first)
}

// printDomainLoad measures what the domain code costs on this computer in kits that
// grow: the same code as in the browser, without browser and disk.
func printDomainLoad(out io.Writer, say func(string)) error {
	var table figures
	for _, size := range loadSizes {
		say(fmt.Sprintf("a kit of size %d, natively", size))
		if err := domainLoad(&table, size); err != nil {
			return err
		}
	}
	table.print(out, "domain code, natively, ms")
	return nil
}

func domainLoad(table *figures, size int) error {
	ctx := context.Background()
	kit := largekit.Kit(size)
	photos := map[string]journal.Blob{}
	for i := range largekit.Photos(size) {
		photo := largekit.Photo(i)
		photos[photo.Hash] = photo
	}
	var file []byte
	clock := func(name string, do func() error) error {
		runtime.GC()
		best := time.Hour
		for range 3 {
			began := time.Now()
			if err := do(); err != nil {
				return fmt.Errorf("%s at size %d: %w", name, size, err)
			}
			best = min(best, time.Since(began))
		}
		table.note(name, fmt.Sprintf("%.2f", best.Seconds()*1000))
		return nil
	}
	table.note("records", fmt.Sprint(records(kit)))
	steps := []struct {
		name string
		do   func() error
	}{
		{"write the kit file", func() error { file = kitfile.Save(kit); return nil }},
		{"read it, every problem with its place", func() error { _, err := kitfile.Load("kit.json", file); return err }},
		{"read it as a start does", func() error { _, err := kitfile.DecodeKit(file); return err }},
		{"check the whole kit", func() error { kitfile.Check(kit); return nil }},
		{"search index", func() error { lookup.New(kit, data.Catalog(), data.Shelf()); return nil }},
		{"interchange graph", func() error { interchange.New(kit.Parts.Slice(), kit.Links.Slice()); return nil }},
		{"how ready a rig is", func() error { counter.Ready(kit, data.Catalog(), kit.Rigs[0].ID); return nil }},
		{"backup with photos", func() error {
			_, err := backup.Write(io.Discard, kit, func(hash string) (journal.Blob, error) { return photos[hash], nil }, fieldkit.Moment{})
			return err
		}},
	}
	for _, s := range steps {
		if err := clock(s.name, s.do); err != nil {
			return err
		}
	}
	table.note("kit file, MB", fmt.Sprintf("%.2f", float64(len(file))/1e6))
	session, _, err := journal.Open(ctx, journal.NewMemory(), func() fieldkit.Kit { return kit })
	if err != nil {
		return err
	}
	if err := editLoad(table, session); err != nil {
		return err
	}
	nextAnswers(table, session.Kit())
	return nil
}

// nextAnswers measures how long the first answer takes after an edit: the search index
// and the interchange graph have to follow it.
func nextAnswers(table *figures, kit fieldkit.Kit) {
	index := lookup.New(kit, data.Catalog(), data.Shelf())
	search := func(name, collection string, edit func(fieldkit.Collection, int)) {
		c, _ := fieldkit.CollectionNamed(collection)
		answer(table, name, func(i int) { edit(c, i) }, func(int) { index = index.Following(kit); index.Find("K-00123", 20) })
	}
	search("search again, nothing edited", "parts", func(fieldkit.Collection, int) {})
	search("search after an edited part", "parts", func(c fieldkit.Collection, i int) {
		p := kit.Parts.At(kit.Parts.Len() / 2)
		p.Name = fmt.Sprint("changed ", i)
		c.Put(&kit, p)
	})
	search("search after an edited position", "positions", func(c fieldkit.Collection, i int) {
		p := kit.Positions.At(kit.Positions.Len() / 2)
		p.Name = fmt.Sprint("changed ", i)
		c.Put(&kit, p)
	})
	search("search after a deleted part", "parts", func(c fieldkit.Collection, i int) {
		c.Remove(&kit, kit.Parts.At(kit.Parts.Len()/2).ID)
	})
	links, _ := fieldkit.CollectionNamed("links")
	stands := func(int) { interchange.Of(kit.Parts, kit.Links).StandIns(kit.Links.At(kit.Links.Len() / 2).For) }
	stands(0)
	answer(table, "stand-ins again, nothing edited", func(int) {}, stands)
	answer(table, "stand-ins after an edited link", func(i int) {
		l := kit.Links.At(kit.Links.Len() / 2)
		l.Note = fmt.Sprint("changed ", i)
		links.Put(&kit, l)
	}, stands)
	answer(table, "stand-ins after a deleted link", func(int) { links.Remove(&kit, kit.Links.At(kit.Links.Len()/2).ID) }, stands)
}

// answer notes the median of what is asked after each edit; the edit itself is not
// counted.
func answer(table *figures, name string, edit, ask func(i int)) {
	var times []float64
	for i := range 25 {
		edit(i)
		began := time.Now()
		ask(i)
		times = append(times, time.Since(began).Seconds()*1000)
	}
	table.note(name, fmt.Sprintf("%.3f", median(times)))
}

// records counts what a kit holds.
func records(kit fieldkit.Kit) (n int) {
	for _, c := range fieldkit.Collections {
		n += len(c.All(kit))
	}
	return n
}

// editLoad measures single edits, each until it is kept in memory. Less than what a
// journal writes in between snapshots are made, so that none falls among them.
func editLoad(table *figures, session *journal.Session) error {
	n := 0
	newID := func() string { n++; return fmt.Sprint("new-", n) }
	kit := session.Kit()
	edits := []struct {
		name string
		edit func(*journal.Edit)
	}{
		{"edit: log a failure", func(e *journal.Edit) {
			e.Put(fieldkit.Failure{ID: newID(), Rig: "rig-0", On: kit.Failures.At(0).On, What: "gave way"})
		}},
		{"edit: change a part", func(e *journal.Edit) {
			part, _ := e.Kit().Part(kit.Parts.At(kit.Parts.Len() / 2).ID)
			part.Note = newID()
			e.Put(part)
		}},
		{"edit: change a position", func(e *journal.Edit) {
			at, _ := e.Kit().Position(kit.Positions.At(kit.Positions.Len() / 2).ID)
			at.Note = newID()
			e.Put(at)
		}},
		{"edit: add a link", func(e *journal.Edit) {
			e.Put(fieldkit.Link{ID: newID(), For: "part-1", With: "part-2", Grade: fieldkit.DropIn, Evidence: fieldkit.Seen})
		}},
		{"edit: change a link", func(e *journal.Edit) {
			link, _ := e.Kit().Links.Find(kit.Links.At(kit.Links.Len() / 2).ID)
			link.Note = newID()
			e.Put(link)
		}},
		{"edit: delete a reading", func(e *journal.Edit) {
			n++
			e.Delete("inspections", kit.Inspections.At(n%kit.Inspections.Len()).ID)
		}},
		{"edit: delete a link", func(e *journal.Edit) {
			links := e.Kit().Links
			e.Delete("links", links.At(links.Len()/2).ID)
		}},
		{"edit: delete a part and its links", func(e *journal.Edit) {
			n += n%2 + 1 // those of odd number are fitted nowhere
			part := fmt.Sprint("part-", n%kit.Parts.Len())
			for _, link := range kitfile.ReferringTo(e.Kit(), "parts", part) {
				e.Delete(link.Collection(), link.Key())
			}
			e.Delete("parts", part)
		}},
	}
	for _, e := range edits {
		var times []float64
		for range 15 {
			began := time.Now()
			if _, err := session.Do(context.Background(), "measured", fieldkit.Moment{}, newID, func(ed *journal.Edit) error { e.edit(ed); return nil }); err != nil {
				return fmt.Errorf("%s: %w", e.name, err)
			}
			times = append(times, time.Since(began).Seconds()*1000)
		}
		table.note(e.name, fmt.Sprintf("%.3f", median(times)))
	}
	return nil
}
