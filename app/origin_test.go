package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBackLeads(t *testing.T) {
	const host = "http://127.0.0.1:8117"
	for _, c := range []struct {
		name, from string
		want       bool
	}{
		{"deep link", "", false},
		{"search with answers", host + "/counter?q=front+pads", true},
		{"another card", host + "/counter/card?part=a", true},
		{"shopping list", host + "/pack/trip?id=t", true},
		{"form just saved", host + "/pack/trip/edit?id=t", false},
		{"form of the rig", host + "/kit-app/rig/position/edit?id=p", false},
		{"entry of the log", host + "/log/failure?id=f", false},
		{"reading", host + "/log/reading", false},
		{"log itself", host + "/log?show=readings", true},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, backLeads(c.from)) })
	}
}

func TestOpenedFrom(t *testing.T) {
	const host = "http://127.0.0.1:8117"
	for _, c := range []struct {
		name, from, href string
		want             bool
	}{
		{"the very list", host + "/pack/stock?what=spares", "/pack/stock?what=spares", true},
		{"another list", host + "/pack/stock?what=tools", "/pack/stock?what=spares", false},
		{"the log in another state", host + "/log?show=failures", "/log", true},
		{"the same trip", host + "/pack/trip?id=a", "/pack/trip?id=a", true},
		{"another position", host + "/rig/position?id=a", "/rig/position?id=b", false},
		{"under a path", host + "/kit/log", "/kit/log", true},
		{"deep link", "", "/log", false},
		{"deep link and no way on", "", "", false},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, openedFrom(c.from, c.href)) })
	}
}

func TestAddressParts(t *testing.T) {
	assert.Equal(t, "https://kit.example:8443", originOf("https://kit.example:8443/rig?a=b://c"))
	assert.Equal(t, "https://kit.example", originOf("https://kit.example"))
	assert.Empty(t, originOf("/rig?to=a"))
	assert.Equal(t, "https://kit.example/rig", pathOf("https://kit.example/rig?a=b#c"))
	assert.Equal(t, "/rig", pathOf("/rig#work"))
}

func TestSaidIsForTheScreenThatFollows(t *testing.T) {
	s := said{text: "Saved trip", entry: "e1"}
	s.passOn()
	assert.Equal(t, "Saved trip", s.text, "saving leads to a list: it is read there")
	assert.Equal(t, "e1", s.entry)
	s.passOn()
	assert.Equal(t, said{}, s, "one screen further it is stale")
}

func TestQuery(t *testing.T) {
	assert.Empty(t, query())
	assert.Empty(t, query("id", "", "q", ""))
	assert.Equal(t, "?id=a", query("q", "", "id", "a"))
	assert.Equal(t, "?a=1&b=2", query("b", "2", "a", "1"), "sorted: equal addresses are equal texts")
	assert.Equal(t, "?q=1-3%2F8+%26+more", query("q", "1-3/8 & more"))
	assert.Equal(t, "?a=1", query("a", "1", "dangling"))
}

func TestLinkStaysUnderThePath(t *testing.T) {
	t.Setenv("GOAPP_ROOT_PREFIX", "/trail/")
	assert.Equal(t, "/trail/pack/trip?id=a", link("/pack/trip", "id", "a"))
	t.Setenv("GOAPP_ROOT_PREFIX", "")
	assert.Equal(t, "/pack", link("/pack"))
}
