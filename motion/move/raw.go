package move

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
)

// Raw is an [axis.NAME] table of a shot. Which keys it has depends on its move. It is
// the list of all moves: one line a move, in the order of the schema, the number being
// its place where they are listed.
type Raw struct {
	Place source.Place `toml:"-"`
	Move  source.Text  `toml:"move" jsonschema_description:"What it does."`

	ThereAndBackKeys `list:"1"`
	ThroughKeys      `list:"2"`
	AimKeys          `list:"6"`
	Shaped           source.Text `toml:"shaped" jsonschema:"enum=zv,enum=zvd" jsonschema_description:"there-and-back, turn, keys: spread over half a swing of the rig (zv), or a whole one (zvd, which forgives a frequency that is a little off), so that it leaves no after-shake; left out, it goes as its law says."`
	TurnKeys         `list:"3"`
	HoldKeys         `list:"5"`
	KeysKeys         `list:"4"`
	ArcKeys          `list:"7"`
	SwingKeys        `list:"8"`
}

// moveKey is the key that names the move.
const moveKey = "move"

// ShapedKey is the key of what any Shapeable may be.
const ShapedKey = "shaped"

// Choices are the moves that move may be.
func (Raw) Choices(key string) []string {
	if key == moveKey {
		return Names()
	}
	return nil
}

// kinds are the moves of a table, in the order in which they are listed.
func (raw Raw) kinds() []Kind {
	type listed struct {
		kind  Kind
		place int
	}
	var all []listed
	v := reflect.ValueOf(raw)
	for i := range v.NumField() {
		if f := v.Type().Field(i); f.Anonymous {
			place, err := strconv.Atoi(f.Tag.Get("list"))
			if err != nil {
				panic("move: " + f.Name + " has no place in the list")
			}
			all = append(all, listed{v.Field(i).Interface().(Kind), place})
		}
	}
	slices.SortFunc(all, func(a, b listed) int { return cmp.Compare(a.place, b.place) })
	out := make([]Kind, len(all))
	for i, l := range all {
		if l.place != i+1 {
			panic("move: the list has no place " + strconv.Itoa(i+1))
		}
		out[i] = l.kind
	}
	return out
}

// Kinds are all moves, as they are written.
func Kinds() []Kind { return Raw{}.kinds() }

// Names are the names of all moves.
func Names() []string {
	return list.Map(Kinds(), Kind.Name)
}

// KeysOf returns the keys that belong to a move, besides move itself. It panics where
// the move is not in the list.
func KeysOf(m Move) []string {
	for _, k := range Kinds() {
		if k.Name() == m.Kind() {
			return keysOf(k, m)
		}
	}
	panic("move: " + m.Kind() + " is not in the list of moves")
}

// Takes are the keys that belong to a move of a name, besides move itself; none where it
// is not in the list.
func Takes(name string) []string {
	for _, k := range Kinds() {
		if k.Name() == name {
			return keysOf(k, Bare(name))
		}
	}
	return nil
}

// Bare is a move of a name of which nothing is said, for what it can do; nil where there
// is none.
func Bare(name string) Move {
	for _, k := range Kinds() {
		if k.Name() == name {
			return k.Read(&Reader{Report: &source.Report{}})
		}
	}
	return nil
}

func keysOf(k Kind, m Move) []string {
	var out []string
	table := reflect.TypeOf(k)
	for i := range table.NumField() {
		f := table.Field(i)
		if f.Anonymous {
			for j := range f.Type.NumField() {
				out = append(out, f.Type.Field(j).Tag.Get("toml"))
			}
			continue
		}
		out = append(out, f.Tag.Get("toml"))
	}
	if _, can := m.(Shapeable); can && !slices.Contains(out, ShapedKey) {
		out = append(out, ShapedKey)
	}
	return out
}

// AllKeys are the keys that any move has, with move itself.
func AllKeys() []source.Key { return source.Keys(reflect.TypeFor[Raw]()) }

// Read understands the move of the table; nil where it is none, and some fault says
// why.
func (raw Raw) Read(r *Reader) Move {
	k := raw.kind(r)
	if k == nil {
		return nil
	}
	m := k.Read(r)
	raw.strays(r, k, m)
	return m
}

// strays reports keys of other moves.
func (raw Raw) strays(r *Reader, k Kind, m Move) {
	own := append(keysOf(k, m), moveKey)
	v := reflect.ValueOf(raw)
	for _, key := range AllKeys() {
		at, set := r.At, false
		switch x := v.FieldByIndex(key.Index).Interface().(type) {
		case source.Text:
			at, set = x.Place(), x.Set
		case source.Texts:
			at, set = x.Place(), x.Set
		default:
			set = !v.FieldByIndex(key.Index).IsNil()
		}
		if set && !slices.Contains(own, key.Key) {
			r.Add(at, r.Path+key.Key, "", fmt.Sprintf("does not belong to the move %q", k.Name()),
				"its keys are "+strings.Join(own[:len(own)-1], ", "))
		}
	}
}

// kind finds the move by its name, or tells it from the keys that are there.
func (raw Raw) kind(r *Reader) Kind {
	all := raw.kinds()
	if raw.Move.Set {
		name, _ := r.Choice(raw.Move, r.Path+moveKey, Names()...)
		if i := slices.IndexFunc(all, func(k Kind) bool { return k.Name() == name }); i >= 0 {
			return all[i]
		}
		return nil
	}
	told := slices.DeleteFunc(slices.Clone(all), func(k Kind) bool { return !k.Told() })
	if len(told) != 1 {
		r.Missing(r.At, r.Path+moveKey, fmt.Sprintf("%q; there are %s", all[0].Name(), strings.Join(Names(), ", ")))
		return nil
	}
	r.Default(r.Path+moveKey, told[0].Name(), "as its keys say")
	return told[0]
}
