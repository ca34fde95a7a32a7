// Command bench is what a page of the fault harness runs: a diary kept in IndexedDB
// the way the app keeps a kit, told what to do through the function bench.
//
//	await bench('look', database)          // what is kept there
//	await bench('write', database, from)   // write without end, until the battery is dead
//	await bench('script', database)        // a scripted day
//
// Each action is announced before it begins and after it was acknowledged by a
// request that the page waits for: what the harness has heard of has left the
// browser before anything else happens.
package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"sync"
	"syscall/js"
	"time"

	"trailfieldkit/app/browserstore"
	"trailfieldkit/cmd/internal/faults/diary"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

var ctx = context.Background()

// tabs are the diaries this page holds open, by database.
var tabs = map[string]*diary.Diary{}

func main() {
	js.Global().Set("bench", js.FuncOf(func(_ js.Value, args []js.Value) any {
		words := make([]string, len(args))
		for i, a := range args {
			words[i] = a.String()
		}
		return promise(func() any { return obey(words) })
	}))
	js.Global().Set("benchReady", true)
	select {}
}

// promise runs f in a goroutine of its own and resolves with its result as JSON.
func promise(f func() any) js.Value {
	var run js.Func
	run = js.FuncOf(func(_ js.Value, args []js.Value) any {
		resolve := args[0]
		go func() {
			defer run.Release()
			text, err := json.Marshal(f())
			if err != nil {
				panic(err) // plain values always encode
			}
			resolve.Invoke(string(text))
		}()
		return nil
	})
	return js.Global().Get("Promise").New(run)
}

// answer is what every command gives back.
type answer struct {
	Err   string       `json:"err,omitempty"`
	Found *diary.Found `json:"found,omitempty"`
	Run   *diary.Run   `json:"run,omitempty"`
	Kit   string       `json:"kit,omitempty"` // SHA-256 of the kit
	Wrote []int        `json:"wrote,omitempty"`
	Told  []string     `json:"told,omitempty"`
}

func obey(words []string) answer {
	if len(words) < 2 {
		return answer{Err: "no command"}
	}
	name := words[1]
	number := func(i int) (n int) {
		if len(words) > i {
			_, _ = fmt.Sscan(words[i], &n) // no number is 0
		}
		return n
	}
	switch words[0] {
	case "look":
		d, err := hold(name)
		if err != nil {
			return answer{Err: err.Error()}
		}
		return look(name, d)
	case "fresh": // a look through a handle opened for it, as the next start has
		store, err := openDoubled(name)
		if err != nil {
			return answer{Err: err.Error()}
		}
		defer store.Close()
		d, err := diary.Open(ctx, store)
		if err != nil {
			return answer{Err: err.Error()}
		}
		return look(name, d)
	case "begin":
		if _, err := hold(name); err != nil {
			return answer{Err: err.Error()}
		}
	case "write":
		d, err := hold(name)
		if err != nil {
			return answer{Err: err.Error()}
		}
		for n := number(2); ; n++ {
			announce("trying", name, n)
			if err := d.Do(ctx, n); err != nil {
				announce("refused "+err.Error(), name, n)
				time.Sleep(10 * time.Millisecond)
				continue
			}
			announce("acknowledged", name, n)
			if words[len(words)-1] == "snapshots" {
				announce("snapshot", name, n)
				if err := d.Snapshot(ctx, kitfile.Save); err != nil {
					announce("refused "+err.Error(), name, n)
				}
			}
		}
	case "act": // one action, tried once more if it failed
		d, err := hold(name)
		if err != nil {
			return answer{Err: err.Error()}
		}
		var a answer
		for range 2 {
			err := d.Do(ctx, number(2))
			if err == nil {
				a.Wrote = []int{number(2)}
				return a
			}
			a.Told = append(a.Told, err.Error())
		}
		return a
	case "edit": // write for so many milliseconds beside other tabs, numbers in steps
		return edit(name, number(2), number(3), number(4))
	case "agree":
		d, err := hold(name)
		if err != nil {
			return answer{Err: err.Error()}
		}
		if _, err := d.Session.Refresh(ctx); err != nil {
			return answer{Err: err.Error()}
		}
		sum := sha256.Sum256(kitfile.Save(d.Session.Kit()))
		return answer{Kit: hex.EncodeToString(sum[:])}
	case "clock": // actions stamped with moments that make no sense
		return clock(name, number(2))
	case "script":
		run := diary.Script(ctx, func(ctx context.Context) (journal.Store, error) { return browserstore.Open(ctx, name) },
			func(context.Context) (journal.Store, error) {
				store, err := openDoubled(name + "-other")
				return thrownAway{store, name + "-other"}, err
			})
		return answer{Run: &run}
	case "drop":
		if d := tabs[name]; d != nil {
			d.Store.Close()
			delete(tabs, name)
		}
	default:
		return answer{Err: "unknown command " + words[0]}
	}
	return answer{}
}

// openDoubled opens a database with its second copy, as the app does: it waits as long, and
// what comes later is told.
func openDoubled(name string) (*journal.Doubled, error) {
	first, err := browserstore.Open(ctx, name)
	if err != nil {
		return nil, err
	}
	d, _, err := journal.OpenDoubled(ctx, first, journal.Copying{
		Open: func(ctx context.Context) (journal.Copy, error) { return browserstore.OpenSecond(ctx, name) },
		SetAside: func(ctx context.Context, from journal.Store) error {
			return journal.SetAside(ctx, from, func(ctx context.Context, n int) (journal.Store, error) {
				return browserstore.Open(ctx, fmt.Sprintf("%s-aside-%d", name, n))
			})
		},
		Patience: journal.CopyPatience,
		Told: func(n journal.News) {
			telling.Lock()
			defer telling.Unlock()
			if n.Regained > 0 {
				late[name] = append(late[name], "came back late from the second copy")
			}
			if n.Apart {
				late[name] = append(late[name], "what only the second copy held was set aside")
			}
		},
	})
	if err != nil {
		_ = d.Close() // why it does not open is what counts
		return nil, err
	}
	go d.Follow(ctx)
	return d, nil
}

// late is what the person was told of a database after it was opened; guarded by telling.
var (
	late    = map[string][]string{}
	telling sync.Mutex
)

// look waits for what may come late, as a person does who is told of it, and looks.
func look(name string, d *diary.Diary) answer {
	_ = d.Store.(*journal.Doubled).Follow(ctx) // where the copy does not answer, what is here counts
	if _, err := d.Session.Refresh(ctx); err != nil {
		return answer{Err: err.Error()}
	}
	found := d.Look(ctx)
	telling.Lock()
	defer telling.Unlock()
	told := late[name]
	delete(late, name)
	return answer{Found: &found, Told: told}
}

// thrownAway is a kit that is thrown away with its second copy, as the app does.
type thrownAway struct {
	*journal.Doubled
	name string
}

func (t thrownAway) Delete(ctx context.Context) error {
	_ = t.Follow(ctx) // so that there is a copy
	_ = t.Close()
	return browserstore.DeleteBoth(ctx, t.name)
}

var holding sync.Mutex

// hold opens a diary and keeps it open for later commands.
func hold(name string) (*diary.Diary, error) {
	holding.Lock()
	defer holding.Unlock()
	if d := tabs[name]; d != nil {
		return d, nil
	}
	store, err := openDoubled(name)
	if err != nil {
		return nil, err
	}
	d, err := diary.Open(ctx, store)
	if err != nil {
		store.Close()
		return nil, err
	}
	tabs[name] = d
	return d, nil
}

// edit writes actions first, first+step, … as fast as it can for some time.
func edit(name string, first, step, milliseconds int) answer {
	d, err := hold(name)
	if err != nil {
		return answer{Err: err.Error()}
	}
	var a answer
	end := time.Now().Add(time.Duration(milliseconds) * time.Millisecond)
	for n := first; time.Now().Before(end); n += step {
		err := d.Do(ctx, n)
		for range 3 {
			if err == nil {
				break
			}
			a.Told = append(a.Told, err.Error())
			err = d.Do(ctx, n)
		}
		if err == nil {
			a.Wrote = append(a.Wrote, n)
		}
		time.Sleep(time.Millisecond) // so that the page answers the other tabs
	}
	return a
}

// clock writes a few actions by the page's own clock, whatever that says.
func clock(name string, first int) answer {
	d, err := hold(name)
	if err != nil {
		return answer{Err: err.Error()}
	}
	var a answer
	for n := first; n < first+4; n++ {
		err := diary.Do(ctx, d.Session, n, fieldkit.Moment{Time: time.Now().UTC().Truncate(time.Second)})
		if err != nil {
			a.Told = append(a.Told, err.Error())
			continue
		}
		a.Wrote = append(a.Wrote, n)
	}
	return a
}

// announce tells the harness and waits until it has heard.
func announce(what, name string, n int) {
	seen := js.Global().Get("durabilities") // of the transactions that may write, counted by the harness's own script
	request := js.Global().Get("XMLHttpRequest").New()
	request.Call("open", "POST", fmt.Sprintf("/heard?what=%s&name=%s&n=%d&seen=%s", js.Global().Call("encodeURIComponent", what).String(), name, n,
		js.Global().Get("JSON").Call("stringify", seen).String()), false)
	request.Call("send")
}
