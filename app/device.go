package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// onApple says whether this is an iPhone or iPad, where the home screen has a
// store of its own.
func onApple() bool {
	f := app.Window().Get("goappIsAppleBrowser")
	return f.Truthy() && f.Invoke().Bool()
}

// printPage opens the device's print sheet; the style sheet has a paper form of
// every screen that is worth carrying.
func printPage() { app.Window().Call("print") }

// watchPrinting unfolds everything for paper, by whatever way printing was asked for,
// and folds it again afterwards: a folded group would not be on the page.
func watchPrinting() {
	if app.IsServer {
		return
	}
	var folded []app.Value
	listen := func(event string, do func()) {
		app.Window().Call("addEventListener", event, app.FuncOf(func(app.Value, []app.Value) any {
			do()
			return nil
		}))
	}
	listen("beforeprint", func() {
		for _, d := range foldingGroups() {
			if !d.Get("open").Bool() {
				d.Set("open", true)
				folded = append(folded, d)
			}
		}
	})
	listen("afterprint", func() {
		for _, d := range folded {
			d.Set("open", false)
		}
		folded = nil
	})
}

// await waits for a promise. It must run in a goroutine of its own, never on the
// UI goroutine. ok is false when the promise is rejected; value is the reason then.
func await(promise app.Value) (value app.Value, ok bool) {
	type outcome struct {
		value app.Value
		ok    bool
	}
	settled := make(chan outcome, 1)
	settle := func(ok bool) app.Func {
		return app.FuncOf(func(_ app.Value, args []app.Value) any {
			var v app.Value = app.Undefined()
			if len(args) > 0 {
				v = args[0]
			}
			settled <- outcome{v, ok}
			return nil
		})
	}
	done, failed := settle(true), settle(false)
	defer done.Release()
	defer failed.Release()
	promise.Call("then", done, failed)
	o := <-settled
	return o.value, o.ok
}

// shareText hands text to the system's share sheet, or puts it on the clipboard
// where there is none. Then runs on the UI goroutine and says which, or why not.
func shareText(ctx app.Context, title, text string, then func(app.Context, string)) {
	nav := app.Window().Get("navigator")
	ctx.Async(func() {
		said := ""
		if nav.Get("share").Truthy() {
			if reason, ok := await(nav.Call("share", map[string]any{"title": title, "text": text})); ok {
				said = "Shared."
			} else if reason.Get("name").String() == "AbortError" {
				said = "Not shared."
			}
		}
		if said == "" {
			said = "Copying is not allowed here: select the text and copy it by hand."
			if clip := nav.Get("clipboard"); clip.Truthy() {
				if _, ok := await(clip.Call("writeText", text)); ok {
					said = "Copied: paste it where you want it."
				}
			}
		}
		ctx.Dispatch(func(ctx app.Context) { then(ctx, said) })
	})
}
