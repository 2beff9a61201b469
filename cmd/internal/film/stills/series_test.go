package stills_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/stills"
)

func named(names ...string) (out []stills.Named) {
	for _, n := range names {
		out = append(out, stills.NewNamed(n))
	}
	return out
}

// Files are in the order of their numbers, however they are found.
func TestNaturalOrder(t *testing.T) {
	want := []string{"2.png", "10.png", "a.png", "a1.png", "a2.png", "a02.tif", "a10.png",
		"a99999999999999999999.png", "a100000000000000000000.png", "b1_9.png", "b1_10.png", "b2_1.png", "b10_1.png", "c1.jpg", "c1.png"}
	for range 20 {
		files := named(want...)
		rand.Shuffle(len(files), func(i, j int) { files[i], files[j] = files[j], files[i] })
		stills.Sort(files)
		var got []string
		for _, f := range files {
			got = append(got, f.Name)
		}
		assert.Equal(t, want, got)
	}
}

func TestRemarks(t *testing.T) {
	for name, c := range map[string]struct {
		files []stills.Named
		kind  odd.Kind
		want  string
	}{
		"whole":       {named("a_0008.png", "a_0009.png", "a_0010.png"), "", ""},
		"unpadded":    {named("a9.png", "a10.png"), "", ""},
		"no numbers":  {named("x.png"), "", ""},
		"no count":    {named("a99999999999999999999.png", "a99999999999999999999999.png"), "", ""},
		"one missing": {named("a_0008.png", "a_0010.png"), odd.Gap, "1 still is missing between a_0008.png and a_0010.png: 0009"},
		"many missing": {named("a_1.png", "a_3.png", "a_7.png"), odd.Gap,
			"4 stills are missing between a_1.png and a_7.png: 2, 4 to 6"},
		"holes": {named("1.png", "3.png", "5.png", "7.png", "9.png", "11.png", "13.png", "15.png", "17.png", "19.png", "21.png"), odd.Gap,
			"10 stills are missing between 1.png and 21.png: 2, 4, 6, 8, 10, 12, 14, 16, and 2 more"},
		"two series": {named("a1.png", "a2.png", "b7.png"), odd.Mixed, `the stills are of 2 series, one after another: "a*.png", "b*.png"; name one with a pattern`},
		"twice":      {named("a1.png", "a01.png", "a2.png"), odd.Mixed, "the number of a1.png is there again in a01.png"},
	} {
		t.Run(name, func(t *testing.T) {
			got := stills.Remarks(c.files)
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			assert.Equal(t, odd.Remarks{{Kind: c.kind, Text: c.want}}, got)
		})
	}
}

// A remark is short, whatever the names are.
func TestRemarksAreBounded(t *testing.T) {
	var names []string
	for i := range 500 {
		names = append(names, strings.Repeat("x", i%100)+"1.png")
	}
	for _, r := range stills.Remarks(named(names...)) {
		assert.Less(t, len(r.Text), 2000)
	}
}
