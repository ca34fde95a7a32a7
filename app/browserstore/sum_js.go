package browserstore

import (
	"context"
	"crypto/sha256"
	"syscall/js"
)

// sumFrom is how many bytes are worth asking the browser for.
const sumFrom = 16 << 10

// sumRoom is where bytes are put to be summed, again and again: fresh memory is slow.
// What is longer gets memory of its own.
var sumRoom = js.Global().Get("Uint8Array").New(1 << 20)

// Sum is SHA-256 by the browser, of pieces put together; it turns away what is short,
// and everything where the page is not served securely. It waits and must not be called
// from a browser callback.
func Sum(pieces [][]byte) (sum [sha256.Size]byte, ok bool) {
	n := 0
	for _, p := range pieces {
		n += len(p)
	}
	crypto := global("crypto")
	if n < sumFrom || !crypto.Truthy() || !crypto.Get("subtle").Truthy() {
		return sum, false
	}
	all := sumRoom.Call("subarray", 0, n)
	if all.Length() < n {
		all = js.Global().Get("Uint8Array").New(n)
	}
	at := 0
	for _, p := range pieces {
		at += js.CopyBytesToJS(all.Call("subarray", at), p)
	}
	// digest takes a copy of the bytes before it returns.
	result, err := await(context.Background(), crypto.Get("subtle").Call("digest", "SHA-256", all))
	if err != nil {
		return sum, false
	}
	return sum, js.CopyBytesToGo(sum[:], js.Global().Get("Uint8Array").New(result)) == len(sum)
}
