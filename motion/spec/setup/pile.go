package setup

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/shot"
)

const (
	// maxDeep is how many set-ups may lie over each other by name: a chain that is
	// longer was not thought of by a person, and may have no end.
	maxDeep = 16
	// maxFiles is how many files may lie under a shot, for the same reason.
	maxFiles = 64
)

// pile is what lies under one shot, being gathered.
type pile struct {
	open   func(from, name string) (Found, error)
	layers source.Layers
	report *source.Report

	files []shot.LaidFile            // set-ups, the lowest first, and then what is on the shelf
	docs  []*source.Doc              // of the files, as they stand in them
	laid  map[string]bool            // set-ups, by what they are
	uses  map[string]map[string]bool // which files a file was written over, by name
	below *source.Doc
}

// wrong tells of a name that leads to no file that could be laid under the shot.
func (x *pile) wrong(t source.Text, path, bound, fit string) {
	x.report.Wrong(t, path, bound, fit)
	x.report.Partial = true
}

// link is a file in a chain of files that name each other.
type link struct{ name, same string }

func newPile(open func(from, name string) (Found, error), file string, report *source.Report) *pile {
	x := &pile{open: open, report: report, laid: map[string]bool{}, uses: map[string]map[string]bool{}, below: source.Nothing()}
	shelves := map[string]any{}
	for key, k := range kinds {
		shelves[key] = k.own
	}
	x.layers = source.Layers{Like: &shot.Raw{}, Shelves: shelves, Report: report, Knows: func(above, below string) bool {
		return above == "" || above == below || x.uses[above][below]
	}, Same: func(a, b source.Text) bool {
		one, err := x.open(cmp.Or(a.File, file), a.Written())
		other, err2 := x.open(cmp.Or(b.File, file), b.Written())
		return err == nil && err2 == nil && one.Same == other.Same
	}}
	return x
}

// setUps lays the set-ups that are named over what is below already, each over those
// that it names itself, and each once.
func (x *pile) setUps(names source.Texts, chain []link) *source.Doc {
	here := map[string]bool{}
	for i, t := range names.Items {
		path := setupKey
		if !names.Single {
			path = fmt.Sprintf("%s[%d]", setupKey, i+1)
		}
		found, ok := x.found(t, path, cmp.Or(t.File, chain[len(chain)-1].name))
		switch {
		case !ok:
			continue
		case here[found.Same]:
			x.wrong(t, path, "is named twice", "name it once, at its place: a later one lies over an earlier one")
			continue
		}
		here[found.Same] = true
		x.setUp(found, t, path, chain)
	}
	return x.below
}

// found opens a file. What keeps it from being read is told where its name stands.
func (x *pile) found(t source.Text, path, from string) (Found, bool) {
	if t.Text == "" {
		x.wrong(t, path, "must be the name of a file", `such as "table.toml"`)
		return Found{}, false
	}
	found, err := x.open(from, t.Written())
	if err != nil {
		x.wrong(t, path, "is a file that cannot be used: "+err.Error(), "")
		return Found{}, false
	}
	if len(x.files) >= maxFiles {
		x.wrong(t, path, fmt.Sprintf("must not be: more than %d files lie under the shot", maxFiles), "")
		return Found{}, false
	}
	return found, true
}

// setUp lays one set-up over what is below.
func (x *pile) setUp(found Found, t source.Text, path string, chain []link) {
	if slices.ContainsFunc(chain, func(l link) bool { return l.same == found.Same || l.name == found.Name }) {
		x.wrong(t, path, "leads back to where it came from: "+circle(chain, found.Name), "take one of these names out")
		return
	}
	if x.laid[found.Same] { // it lies deeper, where the first that named it needs it
		x.knows(chain, found.Name)
		return
	}
	if len(chain) > maxDeep {
		x.wrong(t, path, fmt.Sprintf("must not be: more than %d set-ups name each other in turn", maxDeep), "")
		return
	}
	doc, title, ok := x.read(found, t, path, filekind.SetUp, &Raw{}, titleKey)
	if !ok {
		return
	}
	for _, key := range []string{"axis", "spin", "cue", "music"} { // refused, and so not to be laid under those of the shot
		doc.Top(key, &source.Report{})
	}
	x.laid[found.Same] = true
	x.knows(chain, found.Name)
	x.setUps(doc.Top(setupKey, x.report), append(slices.Clone(chain), link{found.Name, found.Same}))
	x.files = append(x.files, shot.LaidFile{Kind: "set-up", Name: found.Name, Title: title})
	x.docs = append(x.docs, doc)
	x.below = x.layers.Over(doc, x.below)
}

const titleKey = "set-up"

// knows notes that all files of a chain were written with a file in mind, and with all
// that this one was.
func (x *pile) knows(chain []link, name string) {
	for _, l := range chain {
		if x.uses[l.name] == nil {
			x.uses[l.name] = map[string]bool{}
		}
		x.uses[l.name][name] = true
		for deeper := range x.uses[name] {
			x.uses[l.name][deeper] = true
		}
	}
}

// circle tells of files that name each other.
func circle(chain []link, last string) string {
	var names []string
	for _, l := range chain[1:] {
		names = append(names, l.name)
	}
	return chain[0].name + " uses " + strings.Join(append(names, last), ", which uses ")
}

// read understands a file by itself and takes its title out. It returns false where it is
// of another kind, or no document at all.
func (x *pile) read(found Found, t source.Text, path string, want filekind.Kind, like any, key string) (*source.Doc, string, bool) {
	own := &source.Report{File: found.Name}
	doc, ok := source.Parse(found.Name, found.Data, own)
	title, odd := "", 0 // how much of it no such file has
	if ok {
		doc.Bind(like, own)
		odd = len(own.Faults)
		named := doc.Top(key, &source.Report{}) // what is wrong with it has been told
		if len(named.Items) == 1 {
			title = named.Items[0].Text
		}
		if !named.Set {
			own.Missing(source.Place{File: found.Name, Line: 1, Column: 1}, key, `"Fernhollow"`)
		}
	}
	if is := filekind.Of(found.Data); odd > 0 && is != filekind.Unknown && is != want {
		x.wrong(t, path, "is "+is.String(), "it takes "+want.String())
		return nil, "", false
	}
	x.report.Faults = append(x.report.Faults, own.Faults...)
	x.report.Partial = x.report.Partial || !ok
	return doc, title, ok
}

// shelf opens what a table takes from the shelf; nil where it cannot be had.
func (x *pile) shelf(kind, path string, named source.Text) *source.Doc {
	found, ok := x.found(named, path, cmp.Or(named.File, x.report.File))
	if !ok {
		return nil
	}
	for i, f := range x.files {
		if f.Kind == kind && f.Name == found.Name {
			return x.docs[i]
		}
	}
	k := kinds[kind]
	doc, title, ok := x.read(found, named, path, k.kind, k.like(), kind)
	if !ok {
		return nil
	}
	x.files = append(x.files, shot.LaidFile{Kind: kind, Name: found.Name, Title: title})
	x.docs = append(x.docs, doc)
	return doc
}
