package browserstore

import (
	"syscall/js"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
)

func TestWatch(t *testing.T) {
	s := openStore(t, t.Name())
	told := make(chan bool, 10)
	stop := Watch(t.Name(), func() { told <- true })
	isTold := func(want bool) {
		t.Helper()
		select {
		case <-told:
			require.True(t, want, "told of its own write")
		case <-time.After(300 * time.Millisecond):
			require.False(t, want, "not told")
		}
	}
	fill(t, s, 1)
	isTold(false)

	own := thisTab
	thisTab = "another tab"
	fill(t, s, 2)
	time.Sleep(100 * time.Millisecond)
	thisTab = own
	require.NoError(t, s.Append(ctx, next(t, head(t, s)), nil))
	other := js.Global().Get("BroadcastChannel").New("trail-field-kit journal " + t.Name())
	other.Call("postMessage", "another tab")
	isTold(true)
	require.ErrorIs(t, s.Append(ctx, next(t, journal.Head{}), nil), journal.ErrBehind)
	stop()
	other.Call("postMessage", "another tab")
	isTold(false)
	other.Call("close")
}

// databases lists the names of what the browser keeps for this site.
func databases(t *testing.T) (names []string) {
	t.Helper()
	all, err := await(ctx, global("indexedDB").Call("databases"))
	require.NoError(t, err)
	for _, v := range list(all) {
		names = append(names, text(v.Get("name")))
	}
	return names
}

func TestDelete(t *testing.T) {
	openStore(t, t.Name()+"-b")
	openStore(t, t.Name()+"-a")
	names := databases(t)
	require.Contains(t, names, t.Name()+"-a")
	require.Contains(t, names, t.Name()+"-b")
	require.NoError(t, Delete(ctx, t.Name()+"-a"))
	require.NoError(t, Delete(ctx, t.Name()+"-a"))
	names = databases(t)
	require.NotContains(t, names, t.Name()+"-a")
	require.Contains(t, names, t.Name()+"-b")
}

func TestRoomAndPersistence(t *testing.T) {
	needDatabase(t)
	room, err := Estimate(ctx)
	require.NoError(t, err)
	require.Positive(t, room.Limit)
	_, err = Persist(ctx)
	require.NoError(t, err)
	kept, err := Persisted(ctx)
	require.NoError(t, err)
	again, err := Persist(ctx)
	require.NoError(t, err)
	require.Equal(t, kept, again)

	script(t, `
		const real = Object.getOwnPropertyDescriptor(Navigator.prototype, "storage");
		Object.defineProperty(Navigator.prototype, "storage", { configurable: true, get: () => undefined });
		return () => { Object.defineProperty(Navigator.prototype, "storage", real); };`)
	room, err = Estimate(ctx)
	require.NoError(t, err)
	require.Zero(t, room)
	kept, err = Persist(ctx)
	require.NoError(t, err)
	require.False(t, kept, "a browser that knows no such thing has not agreed")
}
