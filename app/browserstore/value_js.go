package browserstore

import (
	"context"
	"syscall/js"
)

// thrown is an exception or a request's error.
type thrown struct{ name, message string }

func (t thrown) Error() string {
	if t.message == "" {
		return t.name
	}
	return t.name + ": " + t.message
}

// thrownBy reads a DOMException; none, as after an abort, counts as AbortError.
func thrownBy(v js.Value) thrown {
	if !v.Truthy() {
		return thrown{name: "AbortError"}
	}
	return thrown{text(v.Get("name")), text(v.Get("message"))}
}

// try gives what f throws as an error. Mistakes of our own still panic.
func try(f func()) (err error) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case js.Error:
			err = thrownBy(e.Value)
		default:
			panic(e)
		}
	}()
	f()
	return nil
}

// global looks a name up in the page; a getter that throws, as under a strict
// privacy setting, counts as missing.
func global(name string) js.Value {
	v := js.Undefined()
	_ = try(func() { v = js.Global().Get("Reflect").Call("get", js.Global(), name) }) // missing is the answer
	return v
}

// callbacks are released together.
type callbacks []js.Func

func (c *callbacks) set(on js.Value, event string, f func(event js.Value)) {
	fn := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) == 0 {
			args = []js.Value{js.Undefined()}
		}
		f(args[0])
		return nil
	})
	*c = append(*c, fn)
	on.Set(event, fn)
}

func (c *callbacks) release() {
	for _, f := range *c {
		f.Release()
	}
	*c = nil
}

// await waits for a promise.
func await(ctx context.Context, promise js.Value) (js.Value, error) {
	type settled struct {
		value js.Value
		err   error
	}
	done := make(chan settled, 1)
	var fulfil, reject js.Func
	fulfil = js.FuncOf(func(_ js.Value, args []js.Value) any {
		fulfil.Release()
		reject.Release()
		v := js.Undefined()
		if len(args) > 0 {
			v = args[0]
		}
		done <- settled{value: v}
		return nil
	})
	reject = js.FuncOf(func(_ js.Value, args []js.Value) any {
		fulfil.Release()
		reject.Release()
		why := js.Undefined()
		if len(args) > 0 {
			why = args[0]
		}
		done <- settled{err: thrownBy(why)}
		return nil
	})
	promise.Call("then", fulfil, reject)
	select {
	case s := <-done:
		return s.value, s.err
	case <-ctx.Done():
		return js.Undefined(), ctx.Err()
	}
}

// The readers below take whatever the database holds: a value of the wrong type
// reads as zero, and the journal's checksums then name the record as damaged.

func text(v js.Value) string {
	if v.Type() == js.TypeString {
		return v.String()
	}
	return ""
}

func number(v js.Value) uint64 {
	if v.Type() != js.TypeNumber {
		return 0
	}
	f := v.Float()
	if f < 0 || f > maxNumber || f != float64(uint64(f)) {
		return 0
	}
	return uint64(f)
}

// maxNumber is the largest whole number JavaScript holds exactly.
const maxNumber = 1<<53 - 1

func toBytes(v js.Value) []byte {
	if v.Type() != js.TypeObject || !v.InstanceOf(js.Global().Get("Uint8Array")) {
		return nil
	}
	b := make([]byte, v.Length())
	js.CopyBytesToGo(b, v)
	return b
}

func fromBytes(b []byte) js.Value {
	v := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(v, b)
	return v
}

func object(fields map[string]any) js.Value {
	o := js.Global().Get("Object").New()
	for name, v := range fields {
		o.Set(name, v)
	}
	return o
}

func list(v js.Value) []js.Value {
	if v.Type() != js.TypeObject {
		return nil
	}
	all := make([]js.Value, v.Length())
	for i := range all {
		all[i] = v.Index(i)
	}
	return all
}
