package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// saveFile hands bytes to the system: through its share sheet where it takes
// files (phones), as a download elsewhere. Then runs on the UI goroutine and says
// what happened.
func saveFile(ctx app.Context, name, mime string, content []byte, then func(app.Context, string)) {
	saveParts(ctx, name, mime, []any{bytesToJS(content)}, func(ctx app.Context, said string, _ bool) { then(ctx, said) })
}

// saveParts is saveFile of what the browser already holds, piece by piece. Saved is
// false if the person turned away: the file is nowhere then.
func saveParts(ctx app.Context, name, mime string, parts []any, then func(ctx app.Context, said string, saved bool)) {
	file := app.Window().Get("File").New(parts, name, map[string]any{"type": mime})
	nav := app.Window().Get("navigator")
	sheet := map[string]any{"files": []any{file}, "title": name}
	canShare := nav.Get("canShare").Truthy() && nav.Get("maxTouchPoints").Int() > 0 && nav.Call("canShare", sheet).Bool()
	ctx.Async(func() {
		said, saved := "", true
		if canShare {
			if reason, ok := await(nav.Call("share", sheet)); ok {
				said = name + " was handed over."
			} else if reason.Get("name").String() == "AbortError" {
				said, saved = "Not saved: the share sheet was closed.", false
			}
		}
		if said == "" {
			download(name, file)
			said = name + " is in your downloads."
		}
		ctx.Dispatch(func(ctx app.Context) { then(ctx, said, saved) })
	})
}

// outside is a file that is written into the browser's memory, so that the program
// never holds more than one piece of it: its own memory, once taken, is never given
// back.
type outside struct {
	piece []byte
	parts []any // Blobs, which the browser may put on the disk
}

// pieceSize is much against the cost of handing a piece over, and little memory.
const pieceSize = 1 << 20

func (o *outside) Write(b []byte) (int, error) {
	if o.piece = append(o.piece, b...); len(o.piece) >= pieceSize {
		o.flush()
	}
	return len(b), nil
}

func (o *outside) flush() {
	if len(o.piece) > 0 {
		o.parts = append(o.parts, app.Window().Get("Blob").New([]any{bytesToJS(o.piece)}))
		o.piece = o.piece[:0]
	}
}

// download saves a file through a link that is pressed once.
func download(name string, file app.Value) {
	url := app.Window().Get("URL")
	address := url.Call("createObjectURL", file)
	doc := app.Window().Get("document")
	a := doc.Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	doc.Get("body").Call("appendChild", a)
	a.Call("click")
	a.Call("remove")
	// The browser reads the address after this turn; a minute is ample.
	app.Window().Call("setTimeout", app.FuncOf(func(app.Value, []app.Value) any {
		url.Call("revokeObjectURL", address)
		return nil
	}), 60_000)
}

// readFile waits for the bytes of a file the person chose. It must not run on the
// UI goroutine. The size is checked first, so that a mistaken choice does not
// fill the memory.
func readFile(file app.Value, most int) ([]byte, error) {
	if size := file.Get("size").Int(); size > most {
		return nil, badField(file.Get("name").String()+" is too large to be this", "choose a backup made by this app")
	}
	b := make([]byte, file.Get("size").Int())
	for at := 0; at < len(b); at += pieceSize { // piece by piece: the browser need not hold it too
		buffer, ok := await(file.Call("slice", at, min(at+pieceSize, len(b))).Call("arrayBuffer"))
		if !ok || app.CopyBytesToGo(b[at:], app.Window().Get("Uint8Array").New(buffer)) != min(pieceSize, len(b)-at) {
			return nil, badField(file.Get("name").String()+" cannot be read", "copy it to the phone itself and choose it again")
		}
	}
	return b, nil
}

func bytesToJS(b []byte) app.Value {
	v := app.Window().Get("Uint8Array").New(len(b))
	app.CopyBytesToJS(v, b)
	return v
}

func bytesFromJS(v app.Value) []byte {
	b := make([]byte, v.Get("length").Int())
	app.CopyBytesToGo(b, v)
	return b
}

// chooseFile draws a button that opens the system's file or camera sheet.
// Accept is a list of types as in HTML; camera asks for the camera first.
func chooseFile(class, label, scope, accept string, camera bool, chosen func(app.Context, app.Value)) app.UI {
	id := "file-" + scope
	input := app.Input().Type("file").ID(id).Class("file").Accept(accept).
		OnChange(func(ctx app.Context, _ app.Event) {
			files := ctx.JSSrc().Get("files")
			if files.Get("length").Int() > 0 {
				file := files.Index(0)
				ctx.JSSrc().Set("value", "") // the same file can be chosen again
				chosen(ctx, file)
			}
		}, app.EventScope(scope))
	if camera {
		input = input.Attr("capture", "environment")
	}
	return app.Div().Class("block").Body(
		input,
		app.Label().For(id).Class(class).Text(label),
	)
}
