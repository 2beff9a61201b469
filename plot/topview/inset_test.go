package topview

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An inset says nothing that the page it is set in says, and every letter in it
// has a note.
func TestInset(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	d.Inset = true
	paper := Paper{Name: "inset", Width: 146, Height: 114}
	scale, err := Largest(d, paper)
	require.NoError(t, err)
	said := texts(t, drawn(t, "svg", d, Options{Paper: paper}))
	assert.Contains(t, said, "Scale "+scale.String())
	assert.NotContains(t, said, d.Title)
	for _, s := range said {
		assert.NotContains(t, s, "Local codes")
		assert.NotContains(t, s, "inset", "the name of a paper nobody can buy")
	}
	letters := 0
	for _, n := range d.Notes() {
		assert.NotContains(t, said, n.Words)
		if n.Letter != "" {
			letters++
			assert.Contains(t, said, n.Letter)
		}
	}
	assert.Equal(t, len(d.Above.Lenses)+len(lantern(0).Lamps), letters)
}

// The paper is not turned, so that it goes into the column it was made for.
func TestAnInsetKeepsItsPaper(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	d.Inset = true
	for _, p := range []Paper{{"wide", 200, 120}, {"tall", 120, 200}} {
		l, err := newLayout(d, p, 0)
		require.NoError(t, err)
		assert.Equal(t, p, l.paper)
	}
}

// What an inset tells beside the drawing is what the sheet lists.
func TestNotesAreTheList(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	all := strings.Join(texts(t, drawn(t, "svg", d, Options{})), " ")
	for _, n := range d.Notes() {
		assert.Contains(t, all, strings.Fields(n.Words)[0])
	}
}
