package move

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
)

// What moves with a from and a to have in common.

func fromToRange(from, to unit.Quantity) [2]End {
	one := func(key string, q unit.Quantity) End {
		return End{key, []string{key}, q.Float(), func(pos float64) []Edit {
			return []Edit{{key, Place(pos, DragGrain, q.Dim)}}
		}}
	}
	return [2]End{one("from", from), one("to", to)}
}

// shorter are the shares of what speeds and places leave of a travel that are tried,
// for what depends on it in another way, such as a way back.
var shorter = []float64{1, 0.95, 0.8, 0.5, 0.25}

// shrunk are the travels to try: from inside the way there is, rounded down, which
// keeps them inside the limit.
func shrunk(from, to unit.Quantity, share, low, high float64, with func(from, to unit.Quantity) Move) []Change {
	a, b := from.Value.Float(), to.Value.Float()
	far := a + (b-a)*share
	var begins []Edit
	words := ""
	if in := settable(a, low, high); in != a {
		text := unit.Format(in, from.Dim)
		a, from = in, asWritten(text, from.Dim)
		begins, words = []Edit{{"from", text}}, fmt.Sprintf("from = %q and ", text)
	}
	far = math.Min(math.Max(far, low), high)
	most := (far - a) * math.Copysign(1, b-a)
	var out []Change
	for _, share := range shorter {
		reach := math.Floor(share*most/DragGrain) * DragGrain
		if reach < DragGrain {
			return out
		}
		far := math.Round((a+math.Copysign(reach, b-a))/DragGrain) * DragGrain
		text := unit.Format(far, to.Dim)
		out = append(out, Change{with(from, exactly(far, to.Dim)), append(begins[:len(begins):len(begins)], Edit{"to", text}),
			fmt.Sprintf("%sto = %q, a travel of %s, in this loop", words, text, unit.Format(math.Abs(far-a), to.Dim))})
	}
	return out
}

// settable is the place nearest to one that is inside a travel, in what a person sets.
func settable(place, low, high float64) float64 {
	switch {
	case place < low:
		return math.Ceil(low/DragGrain) * DragGrain
	case place > high:
		return math.Floor(high/DragGrain) * DragGrain
	}
	return place
}

// shifted is the same way elsewhere.
func shifted(from, to unit.Quantity, by float64, with func(from, to unit.Quantity) Move) Change {
	a, b := Place(from.Float()+by, placeGrain, from.Dim), Place(to.Float()+by, placeGrain, to.Dim)
	return Change{with(asWritten(a, from.Dim), asWritten(b, to.Dim)), []Edit{{"from", a}, {"to", b}},
		fmt.Sprintf("from = %q and to = %q", a, b)}
}
