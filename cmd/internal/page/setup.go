package page

import (
	"net/http"
	"strings"
	"sync"

	"seamrail/motion/base/source"
	"seamrail/motion/spec/setup"
	"seamrail/motion/spec/shot"
)

// under is what lies under the shot on the disk: which files the text that was read last
// names, and what the page itself has written into them.
type under struct {
	mu    sync.Mutex
	names []string
	wrote map[string]string // revisions
}

// are notes all that a text names, in place of what an earlier one named.
func (u *under) are(names []string) {
	u.mu.Lock()
	defer u.mu.Unlock()
	u.names = names
}

func (u *under) written(name string, text []byte) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if u.wrote == nil {
		u.wrote = map[string]string{}
	}
	u.wrote[name] = revision(text)
}

// changed are the files that are not what they were when they were last seen, which is
// noted. One that is looked at for the first time is not. Own tells whether the page has
// written all of them.
func (u *under) changed(seen map[string]string, read func(string) ([]byte, error)) (files []string, own bool) {
	u.mu.Lock()
	names, own := u.names, true
	u.mu.Unlock()
	for _, name := range names {
		now := ""
		if data, err := read(name); err == nil {
			now = revision(data)
		}
		was, known := seen[name]
		if seen[name] = now; !known || was == now {
			continue
		}
		files = append(files, name)
		u.mu.Lock()
		own = own && u.wrote[name] == now
		u.mu.Unlock()
	}
	return files, own
}

// UnderNews is that files under the shot have changed.
type UnderNews struct {
	Files []string `json:"files"`
	Own   bool     `json:"own"` // the page wrote them itself
}

// under tells of changed files under the shot.
func (x *watcher) under() {
	if files, own := x.s.doc.under.changed(x.seen, x.s.doc.read); len(files) > 0 {
		x.tell(News{Under: &UnderNews{files, own}})
	}
}

// files reads what lies under a shot, from the folder alone.
func (d *document) files() setup.Files { return d.noting(new([]string)) }

// noting is files, and adds to names which they were.
func (d *document) noting(names *[]string) setup.Files {
	return setup.Files{Open: func(from, name string) (setup.Found, error) {
		found := setup.Found{Name: beside(from, name)}
		*names = append(*names, found.Name)
		var err error
		found.Data, err = d.read(found.Name)
		return found, err
	}}
}

// set writes a value into the text of the shot, over what lies under it.
func (d *document) set(text, path, value string) (string, error) {
	s, _ := d.files().Understand(d.name, []byte(text), nil)
	if s.Laid.Set == nil {
		return d.setOwn(text, path, value)
	}
	out, err := s.Laid.Set([]byte(text), path, value)
	return string(out), err
}

// setOwn is set for a shot under which nothing lies.
func (d *document) setOwn(text, path, value string) (string, error) {
	out, err := source.Set(d.name, []byte(text), path, value)
	return string(out), err
}

// standing says of the values of a shot in which file they stand, and what they stand
// over.
func standing(list []Value, laid shot.Laid) []Value {
	at := map[string]source.Leaf{}
	for _, v := range laid.Values {
		at[v.Path] = v
	}
	for i, v := range list {
		leaf, ok := at[v.Path]
		if item := strings.LastIndexByte(v.Path, '['); !ok && item > 0 {
			leaf = at[v.Path[:item]] // a list is one value
		}
		list[i].File = leaf.Text.File
		if len(leaf.Below) > 0 {
			list[i].Over = &Over{leaf.Below[0].Text, leaf.Below[0].File}
		}
	}
	return list
}

// Over is a value that another one stands over.
type Over struct {
	Value string `json:"value"`
	File  string `json:"file"`
}

// setUpQuestion asks for a value to be changed where it stands, under the shot.
type setUpQuestion struct {
	Text  string `json:"text"`
	Path  string `json:"path"` // in the shot
	Value string `json:"value"`
	Was   string `json:"was"` // as the page knows it
}

// setUpAnswer says what was written where.
type setUpAnswer struct {
	File string `json:"file"`
	Path string `json:"path"` // in that file
}

// inSetUp writes a value into the file under the shot that it stands in, for all shots that
// lie over it. Nothing is written where another program has changed the value meanwhile,
// or where this shot would no longer be one.
func (s *desk) inSetUp(q setUpQuestion) (*setUpAnswer, error) {
	d := s.doc
	d.writing.Lock()
	defer d.writing.Unlock()
	x, _ := d.files().Understand(d.name, []byte(q.Text), nil)
	if x.Laid.Home == nil {
		return nil, refused(http.StatusUnprocessableEntity, "nothing lies under this shot")
	}
	file, local := x.Laid.Home(q.Path)
	if file == "" {
		return nil, refused(http.StatusUnprocessableEntity, q.Path+" stands in the shot itself")
	}
	data, err := d.read(file)
	if err != nil {
		return nil, err
	}
	if now, _ := source.Value(data, local); now != q.Was {
		return nil, refused(http.StatusConflict, file+" has "+local+" = \""+now+"\" by now; nothing was written")
	}
	out, err := source.Set(file, data, local, q.Value)
	if err != nil {
		return nil, err
	}
	changed := d.files()
	open := changed.Open
	changed.Open = func(from, name string) (setup.Found, error) {
		found, err := open(from, name)
		if found.Name == file {
			found.Data = out
		}
		return found, err
	}
	if _, err := changed.Decode(d.name, []byte(q.Text), nil); err != nil {
		return nil, err
	}
	if err := d.write(file, out); err != nil {
		return nil, err
	}
	d.under.written(file, out)
	return &setUpAnswer{file, local}, nil
}
