package app

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/plainpage"
)

// plainAfter is how long after the last change the plain pages are written anew: a
// series of ticks is one writing. When the person looks away it is done at once.
const plainAfter = 2 * time.Second

// plainKeeping brings the kept plain pages in line with the kit in hand.
type plainKeeping struct {
	asked   int  // raised with every request; only the last one counts
	running bool // one goes through the pages; what is asked for meanwhile comes after it
	again   bool
}

// plainCache is what the start script offers for plain pages; false where the browser
// has no cache.
func plainCache() (app.Value, bool) {
	if app.IsServer {
		return nil, false
	}
	v := app.Window().Get("fieldkitPlain")
	return v, v.Truthy()
}

// keepPlainSoon asks for the plain pages to be written once it is quiet.
func (s *store) keepPlainSoon() {
	if _, ok := plainCache(); !ok || s.phase != open {
		return
	}
	s.plain.asked++
	turn := s.plain.asked
	time.AfterFunc(plainAfter, func() {
		s.post(func(app.Context) {
			if turn == s.plain.asked {
				s.keepPlainNow()
			}
		})
	})
}

// keepPlainNow writes what has changed. It is called on the UI goroutine and goes on
// beside it, a page at a time.
func (s *store) keepPlainNow() {
	cache, ok := plainCache()
	if !ok || s.phase != open {
		return
	}
	if s.plain.running {
		s.plain.again = true
		return
	}
	s.plain.running = true
	k, which := s.kit(), s.which
	jobs := plainJobs(k, s.interchange, readCards(pinnedKey(which)), readCards(openedKey(which)), s.first())
	frame := plainpage.Frame{Base: link("/"), KitName: k.Name, Demo: which == demoKit, Night: s.prefs.Theme == night}
	session := s.session
	go func() {
		goOn := func() bool { return session == s.session }
		writePlain(cache, frame, jobs, goOn)
		if which == ownKit && goOn() {
			noteKit(cache, k)
		}
		s.post(func(app.Context) {
			s.plain.running = false
			if s.plain.again {
				s.plain.again = false
				s.keepPlainNow()
			}
		})
	}()
}

// writePlain writes the pages that differ from those kept, the list of all, and
// drops the rest. It ends early when another kit was opened or this one thrown away, and
// leaves nothing of it then. What is kept is looked up each time: another tab may have
// written, and the system cleared.
func writePlain(cache app.Value, frame plainpage.Frame, jobs []plainJob, goOn func() bool) {
	marks := plainMarks(cache)
	keep := func(p plainpage.Page) {
		mark := frame.Mark(p)
		if marks[p.Path()] == mark || !goOn() {
			return
		}
		await(cache.Call("keep", p.Path(), mark, frame.HTML(p, localNow())))
		if !goOn() {
			await(cache.Call("drop", p.Path()))
		}
	}
	var pages []plainpage.Page
	wanted := map[string]bool{plainpage.Folder: true}
	for _, job := range jobs {
		if !goOn() {
			return
		}
		if page, ok := job(); ok {
			keep(page)
			pages = append(pages, page)
			wanted[page.Path()] = true
		}
		handOver() // the screen comes first
	}
	keep(plainpage.Index(frame.Base, pages))
	for path := range marks {
		if !wanted[path] && goOn() {
			await(cache.Call("drop", path))
		}
	}
}

func plainMarks(cache app.Value) map[string]string {
	marks := map[string]string{}
	if list, ok := await(cache.Call("list")); ok {
		for i := range list.Get("length").Int() {
			one := list.Index(i)
			marks[one.Get("path").String()] = one.Get("mark").String()
		}
	}
	return marks
}

// dropPlain throws the plain pages of a kit away that is thrown away itself.
func dropPlain() {
	if cache, ok := plainCache(); ok {
		for path := range plainMarks(cache) {
			await(cache.Call("drop", path))
		}
	}
}

// noteKit leaves a note of one's own kit beside the program's files, where clearing
// the database does not reach.
func noteKit(cache app.Value, k fieldkit.Kit) {
	await(cache.Call("note", kitWords(k, -1)+" Last opened "+today().Show()+"."))
}

// notedKit reads it: what was kept on this phone, in words; nothing if none is known.
func notedKit() string {
	cache, ok := plainCache()
	if !ok {
		return ""
	}
	if v, ok := await(cache.Call("noted")); ok && v.Truthy() {
		return v.String()
	}
	return ""
}
