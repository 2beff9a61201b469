package page

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film/decoder/fake"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/footage"
	"seamrail/motion/plan/sample/many"
)

func TestMain(m *testing.M) {
	fake.Main()
	os.Exit(m.Run())
}

// filming is a page whose temporary files are in a folder of the test's own.
func filming(t *testing.T) (*Server, string) {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	t.Setenv("TMP", dir)
	s, _ := opened(t)
	return s, dir
}

// left are the files in a folder and below it.
func left(t *testing.T, dir string) (out []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(name string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			out = append(out, name)
		}
		return err
	}))
	return out
}

// filmBegun announces files of so many bytes, by their names.
func filmBegun(t *testing.T, s *Server, files ...FilmFile) FilmBegun {
	t.Helper()
	return answeredBy[FilmBegun](t, s, "", "/api/film/begin", filmFiles{files})
}

// sending is the bytes of a file on their way.
func sending(s *Server, film key, part int, from io.Reader) *http.Request {
	r := httptest.NewRequest(http.MethodPost, "http://"+s.listens.Addr().String()+filmBytesPath, from)
	r.Header.Set("Origin", "http://"+r.Host)
	r.Header.Set(keyHeader, string(s.key))
	r.Header.Set(filmHeader, string(film))
	r.Header.Set(partHeader, strconv.Itoa(part))
	return r
}

// sent are all files of a take, which come whole.
func sent(t *testing.T, s *Server, names []string, files ...[]byte) key {
	t.Helper()
	var list []FilmFile
	for n, name := range names {
		list = append(list, FilmFile{name, int64(len(files[n]))})
	}
	film := filmBegun(t, s, list...).Film
	for n, data := range files {
		w := served(s, sending(s, film, n, bytes.NewReader(data)))
		require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	}
	return film
}

// lookedAt is the last that is told of a take that is looked through.
func lookedAt(t *testing.T, s *Server, film key) FilmNews {
	t.Helper()
	w := posted(s, "/api/film/look", filmQuestion{film})
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	rows := strings.Split(strings.TrimSpace(w.Body.String()), "\n")
	var news FilmNews
	require.NoError(t, json.Unmarshal([]byte(rows[len(rows)-1]), &news))
	return news
}

// video is so many frames of YUV4MPEG2 in which a stripe wanders.
func video(frames int) []byte {
	const wide, high = 160, 120
	var b bytes.Buffer
	fmt.Fprintf(&b, "YUV4MPEG2 W%d H%d F24:1 Ip A1:1 Cmono\n", wide, high)
	for k := range frames {
		fmt.Fprintln(&b, "FRAME")
		for y := range high {
			for x := range wide {
				b.WriteByte(byte(16 + (x*x+y*7+k*9)%200))
			}
		}
	}
	return b.Bytes()
}

// aTake is a shot of a slide along a label, and a round and some of it as its preview draws them.
func aTake(t *testing.T) (s *Server, text string, names []string, files [][]byte) {
	t.Helper()
	t.Setenv("TMPDIR", t.TempDir())
	s = folderOpened(t, nil)
	q := withAnswers("label", kinds.Answers{"capture": "24", "loop": "8 s"})
	q.NoTable = true
	w := posted(s, "/api/begin", q)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	data, err := os.ReadFile("a.toml")
	require.NoError(t, err)
	r := request(s, http.MethodPost, "/api/preview", previewQuestion{Text: string(data), Width: 480})
	r.Header.Set(shotHeader, "a.toml")
	drawn := served(s, r)
	require.Equal(t, http.StatusOK, drawn.Code, drawn.Body.String())
	loop := packed(drawn.Body.Bytes())
	require.Greater(t, len(loop), 80)
	for n := range len(loop) + 24 {
		names, files = append(names, fmt.Sprintf("take-%04d.jpg", n)), append(files, loop[n%len(loop)])
	}
	return s, string(data), names, files
}

// packed are the pictures of a stream.
func packed(data []byte) (out [][]byte) {
	for len(data) >= 4 {
		n := binary.LittleEndian.Uint32(data)
		out, data = append(out, data[4:4+n]), data[4+n:]
	}
	return out
}

// A take as it is drawn is looked through, is the plan, has its pictures and a
// loop, is told from another plan, and leaves nothing when it goes.
func TestATakeIsLookedThrough(t *testing.T) {
	many.Long(t)
	s, text, names, files := aTake(t)
	film := sent(t, s, names, files...)
	news := lookedAt(t, s, film)
	require.True(t, news.Looked, news.Error)
	assert.EqualValues(t, len(files), news.Frame)
	assert.EqualValues(t, len(files), news.Of)
	assert.Len(t, left(t, os.TempDir()), 2, "the pictures and the lock; what was dropped is gone")

	f := answeredBy[Filmed](t, s, "a.toml", "/api/film/lay", filmLaid{film, text})
	assert.Equal(t, "THE PLAN", f.Stamp, f.Words)
	assert.Equal(t, good, f.Level)
	assert.Equal(t, len(files), f.Frames)
	assert.Equal(t, len(files), f.Pictures)
	assert.Equal(t, int64(len(files)-24), f.Round)
	assert.Contains(t, f.Report, "BESIDE THE PLAN")
	assert.Contains(t, f.Report, "216 stills, take-0000.jpg to take-0215.jpg")
	assert.NotContains(t, f.Report, os.TempDir())
	require.NotNil(t, f.Zero.At)
	assert.InDelta(t, 0, *f.Zero.At, 0.1)
	require.NotEmpty(t, f.Loops)
	assert.True(t, f.Loops[0].Unseen)
	assert.Equal(t, len(files)-24, f.Loops[0].Frames)
	require.Len(t, f.Panels, 4)
	assert.Len(t, f.Panels[0].Measured, len(files))
	assert.Len(t, f.Panels[0].Planned, len(files))
	for n, at := range f.Panels[0].Planned {
		assert.InDelta(t, at[1], f.Panels[0].Measured[n][1], 0.5, "frame %v", at[0])
	}

	other := strings.Replace(text, `law  = "3-4-5"`, `law  = "cycloidal"`, 1)
	require.NotEqual(t, text, other)
	differs := answeredBy[Filmed](t, s, "a.toml", "/api/film/lay", filmLaid{film, other}) // without being looked through again
	assert.Equal(t, "NOT THE PLAN", differs.Stamp, differs.Words)
	assert.Equal(t, bad, differs.Level)
	assert.Equal(t, "differs", differs.Plan.Verdict)

	w := posted(s, "/api/film/pictures", m{"film": film, "frames": []int{5, 0, 215}})
	require.Equal(t, http.StatusOK, w.Code)
	shown := packed(w.Body.Bytes())
	require.Len(t, shown, 3)
	p, err := jpeg.Decode(bytes.NewReader(shown[0]))
	require.NoError(t, err)
	assert.Equal(t, image.Pt(480, 270), p.Bounds().Size())
	_, grey := p.(*image.Gray)
	assert.True(t, grey)
	assert.Equal(t, http.StatusUnprocessableEntity, posted(s, "/api/film/pictures", m{"film": film, "frames": []int{216}}).Code)
	assert.Equal(t, http.StatusUnprocessableEntity, posted(s, "/api/film/pictures", m{"film": film, "frames": []int{-1}}).Code)
	assert.Equal(t, http.StatusConflict, posted(s, "/api/film/look", filmQuestion{film}).Code, "once is enough")

	isKept(t, s, film, text, f)

	posted(s, "/api/film/drop", filmQuestion{film})
	assert.Empty(t, left(t, os.TempDir()))
	assert.Equal(t, http.StatusGone, posted(s, "/api/film/pictures", m{"film": film, "frames": []int{0}}).Code)
}

// What is accepted is held and told; nothing is written for it.
func TestAcceptingWritesNothing(t *testing.T) {
	s, _ := filming(t)
	film := sent(t, s, []string{"it's 3.y4m"}, video(30))
	require.True(t, lookedAt(t, s, film).Looked)
	before := left(t, s.folder.root.Name())
	ask := func(body m) (int, Accepted) {
		body["film"] = film
		w := posted(s, "/api/film/accept", body)
		var a Accepted
		if w.Code == http.StatusOK {
			require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a))
		}
		return w.Code, a
	}
	code, a := ask(m{"frame0": 3.126, "from": 4, "to": 27})
	require.Equal(t, http.StatusOK, code)
	assert.Equal(t, "frame 0 is at 3.13, the loop is frames 4 to 27", a.Words)
	assert.Empty(t, a.Takes)
	assert.Contains(t, a.Why, "laid on no plan")
	assert.Equal(t, http.StatusConflict, posted(s, "/api/film/keep", filmKeeps{Film: film, Take: 1}).Code)
	require.NotNil(t, s.film.reel.accepted)
	assert.Equal(t, a, *s.film.reel.accepted)
	for _, no := range []m{{}, {"from": 4}, {"to": 4}, {"from": 9, "to": 8}, {"from": -1, "to": 8}, {"from": 0, "to": 30}, {"frame0": 1e9}} {
		code, _ := ask(no)
		assert.Equal(t, http.StatusBadRequest, code, "%v", no)
	}
	assert.Equal(t, before, left(t, s.folder.root.Name()))
}

// One take is looked at at a time: another takes its place, and whoever asks of the first is told.
func TestASecondTakeTakesThePlaceOfTheFirst(t *testing.T) {
	s, dir := filming(t)
	one := filmBegun(t, s, FilmFile{"one.y4m", 1000})
	assert.Empty(t, one.Replaced)
	two := filmBegun(t, s, FilmFile{"two.y4m", 1000})
	assert.Equal(t, "one.y4m", two.Replaced)
	for path, q := range map[string]any{
		"look": filmQuestion{one.Film}, "lay": filmLaid{one.Film, "x"}, "pictures": m{"film": one.Film, "frames": []int{0}}, "accept": m{"film": one.Film, "frame0": 1}, "drop": filmQuestion{one.Film},
	} {
		assert.Equal(t, http.StatusGone, posted(s, "/api/film/"+path, q).Code, path)
	}
	assert.Equal(t, http.StatusGone, served(s, sending(s, one.Film, 0, strings.NewReader("x"))).Code)
	assert.Len(t, left(t, dir), 1, "the lock of the second")
	require.NoError(t, s.Close())
	assert.Empty(t, left(t, dir))
}

// A file comes as it was announced, or not at all.
func TestAFilmThatIsNotAsAnnounced(t *testing.T) {
	s, dir := filming(t)
	b := filmBegun(t, s, FilmFile{"a.png", 5}, FilmFile{"b.png", 5})
	for name, c := range map[string]struct {
		part int
		body io.Reader
		want int
	}{
		"more":      {0, strings.NewReader("123456"), http.StatusRequestEntityTooLarge},
		"far more":  {0, io.LimitReader(endless{}, 1<<40), http.StatusRequestEntityTooLarge},
		"less":      {0, strings.NewReader("1234"), http.StatusBadRequest},
		"cut off":   {0, io.MultiReader(strings.NewReader("12"), failing{io.ErrUnexpectedEOF}), http.StatusBadRequest},
		"too slow":  {0, failing{os.ErrDeadlineExceeded}, http.StatusRequestTimeout},
		"the next":  {1, strings.NewReader("12345"), http.StatusConflict},
		"none":      {2, strings.NewReader("12345"), http.StatusBadRequest},
		"below any": {-1, strings.NewReader("12345"), http.StatusBadRequest},
	} {
		w := served(s, sending(s, b.Film, c.part, c.body))
		assert.Equal(t, c.want, w.Code, "%s: %s", name, w.Body)
		assert.Len(t, left(t, dir), 1, "%s: the lock", name)
	}
	assert.Equal(t, http.StatusConflict, posted(s, "/api/film/look", filmQuestion{b.Film}).Code, "it has not come whole")
	assert.Equal(t, http.StatusOK, served(s, sending(s, b.Film, 0, strings.NewReader("12345"))).Code)
	assert.Equal(t, http.StatusConflict, served(s, sending(s, b.Film, 0, strings.NewReader("12345"))).Code, "it is there")
}

type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// What cannot be taken is said before a byte of it comes.
func TestWhatIsNoTake(t *testing.T) {
	s, dir := filming(t)
	for name, c := range map[string]struct {
		files []FilmFile
		want  int
		words string
	}{
		"nothing":        {nil, http.StatusBadRequest, "there is no file"},
		"a folder":       {[]FilmFile{{"take3", 0}}, http.StatusUnprocessableEntity, "is empty, or a folder"},
		"less than none": {[]FilmFile{{"a.mov", -1}}, http.StatusUnprocessableEntity, "is empty"},
		"too large":      {[]FilmFile{{"a.mov", mostFilm + 1}}, http.StatusRequestEntityTooLarge, "at most 32 GB"},
		"all too large":  {[]FilmFile{{"a.png", mostFilm}, {"b.png", 1}}, http.StatusRequestEntityTooLarge, "at most 32 GB"},
		"two films":      {[]FilmFile{{"a.mov", 9}, {"b.mov", 9}}, http.StatusUnprocessableEntity, "one at a time"},
		"out of it":      {[]FilmFile{{"../a.png", 9}, {"b.png", 9}}, http.StatusUnprocessableEntity, "no folder in it"},
		"a device":       {[]FilmFile{{"nul.png", 9}, {"b.png", 9}}, http.StatusUnprocessableEntity, "device"},
		"hidden":         {[]FilmFile{{".a.png", 9}, {"b.png", 9}}, http.StatusUnprocessableEntity, "hidden"},
		"twice":          {[]FilmFile{{"a.png", 9}, {"A.png", 9}}, http.StatusUnprocessableEntity, "two stills"},
		"too many":       {slices.Repeat([]FilmFile{{"a.png", 9}}, mostStills+1), http.StatusBadRequest, "may have 10000"},
	} {
		w := posted(s, "/api/film/begin", filmFiles{c.files})
		assert.Equal(t, c.want, w.Code, name)
		assert.Contains(t, w.Body.String(), c.words, name)
	}
	assert.Empty(t, left(t, dir))
	// A film is called as it likes: its name is no file's here.
	b := filmBegun(t, s, FilmFile{"../-i concat:x|y.mov", 5})
	assert.Equal(t, "-i concat:x|y.mov", b.Name)
	assert.Equal(t, filepath.Join(s.film.reel.dir, "film.mov"), s.film.reel.path(0))
}

// What no decoder reads is told as the command tells it, and of the film as it was dropped.
func TestAFilmThatCannotBeRead(t *testing.T) {
	s, dir := filming(t)
	s.decoder = func(string) (string, error) { return "", errors.New("none") }
	film := sent(t, s, []string{"my take.mov"}, []byte("moov"))
	news := lookedAt(t, s, film)
	assert.False(t, news.Looked)
	assert.Contains(t, news.Error, "my take.mov needs a decoder, and ffmpeg is not on the PATH")
	assert.Contains(t, news.Error, "ffmpeg -i 'my take.mov'")
	assert.NotContains(t, news.Error, dir)
	assert.Equal(t, http.StatusConflict, posted(s, "/api/film/lay", filmLaid{film, "x"}).Code)

	film = sent(t, s, []string{"cut.y4m"}, video(20)[:300_000])
	require.True(t, lookedAt(t, s, film).Looked, "what is cut off is looked at as far as it goes")
	_, _, err := s.film.at(film)
	require.NoError(t, err)
	assert.Contains(t, s.film.reel.looked.Cut.Error(), "cut.y4m is cut off")
	s.film.reel.users.RUnlock()

	s.decoder = func(string) (string, error) { panic("out of range") }
	film = sent(t, s, []string{"odd.mov"}, []byte("moov"))
	assert.Contains(t, lookedAt(t, s, film).Error, "odd.mov cannot be looked through: out of range", "and the page goes on")

	film = sent(t, s, []string{"none.y4m"}, []byte("YUV4MPEG2 W9999999 H9\n"))
	assert.Contains(t, lookedAt(t, s, film).Error, "none.y4m")
}

// Who gives up, or drops another, or holds a rig, ends the decoder.
func TestLookingIsGivenUp(t *testing.T) {
	for name, how := range map[string]func(s *Server, film key, gone context.CancelFunc){
		"its page goes": func(_ *Server, _ key, gone context.CancelFunc) { gone() },
		"another take": func(s *Server, _ key, _ context.CancelFunc) {
			posted(s, "/api/film/begin", filmFiles{[]FilmFile{{"b.mov", 1}}})
		},
		"let go of":     func(s *Server, film key, _ context.CancelFunc) { posted(s, "/api/film/drop", filmQuestion{film}) },
		"a rig is held": func(s *Server, _ key, _ context.CancelFunc) { s.film.rest() },
		"the end":       func(s *Server, _ key, _ context.CancelFunc) { _ = s.Close() },
	} {
		t.Run(name, func(t *testing.T) {
			s, dir := filming(t)
			d := fake.Good(3)
			d.Hangs = true
			s.decoder = d.Lookup(t)
			film := sent(t, s, []string{"a.mov"}, []byte("film"))
			ctx, gone := context.WithCancel(t.Context())
			defer gone()
			w := httptest.NewRecorder()
			ended := make(chan struct{})
			go func() {
				defer close(ended)
				s.http.Handler.ServeHTTP(w, request(s, http.MethodPost, "/api/film/look", filmQuestion{film}).WithContext(ctx))
			}()
			require.Eventually(t, func() bool {
				s.film.mu.Lock()
				defer s.film.mu.Unlock()
				s.film.reel.mu.Lock()
				defer s.film.reel.mu.Unlock()
				return s.film.reel.stop != nil
			}, pageSoon, time.Millisecond)
			assert.Equal(t, http.StatusConflict, posted(s, "/api/film/look", filmQuestion{film}).Code, "it is at work")
			how(s, film, gone)
			select {
			case <-ended:
			case <-time.After(pageSoon):
				t.Fatal("it goes on")
			}
			assert.NotContains(t, w.Body.String(), `"looked":true`)
			if name == "a rig is held" {
				assert.Contains(t, w.Body.String(), busyRig)
				s.decoder = fake.Good(3).Lookup(t)
				assert.True(t, lookedAt(t, s, film).Looked, "it is there still, and is looked through later")
			}
			_ = s.Close()
			assert.Empty(t, left(t, dir))
		})
	}
}

// While a rig is held no take is looked through.
func TestNoTakeBesideARig(t *testing.T) {
	s, _ := filming(t)
	film := sent(t, s, []string{"a.y4m"}, video(3))
	release, err := s.driving.take()
	require.NoError(t, err)
	assert.Equal(t, http.StatusLocked, posted(s, "/api/film/begin", filmFiles{[]FilmFile{{"b.mov", 1}}}).Code)
	assert.Equal(t, http.StatusLocked, posted(s, "/api/film/look", filmQuestion{film}).Code)
	release()
	assert.True(t, lookedAt(t, s, film).Looked)
}

// What a run left that was killed is taken away by the next, and what another has is not.
func TestFoldersOfRunsThatEnded(t *testing.T) {
	s, dir := filming(t)
	dead := filepath.Join(dir, filmFolder+"dead")
	require.NoError(t, os.Mkdir(dead, 0o700))
	for _, name := range []string{dead + lockEnds, filepath.Join(dead, "film.mov")} {
		require.NoError(t, os.WriteFile(name, []byte("x"), 0o600))
	}
	other, err := newReel([]FilmFile{{"a.mov", 1}})
	require.NoError(t, err)
	filmBegun(t, s, FilmFile{"b.mov", 1})
	assert.NoDirExists(t, dead)
	assert.DirExists(t, other.dir)
	other.close()
	assert.NoDirExists(t, other.dir)
}

// A film that takes longer than a question may is heard to its end, over a connection, and one of
// which nothing comes any more is not waited for.
func TestAFilmComesOverAConnection(t *testing.T) {
	s, _ := filming(t)
	go func() { _ = s.Serve() }()
	b := filmBegun(t, s, FilmFile{"a.y4m", 8})
	c, err := net.Dial("tcp4", s.listens.Addr().String())
	require.NoError(t, err)
	defer func() { _ = c.Close() }()
	require.NoError(t, c.SetDeadline(time.Now().Add(pageSoon)))
	_, err = fmt.Fprintf(c, "POST %s HTTP/1.1\r\nHost: %s\r\n%s: %s\r\n%s: %s\r\n%s: 0\r\nContent-Length: 8\r\n\r\nfour", filmBytesPath, s.listens.Addr(), keyHeader, s.key, filmHeader, b.Film, partHeader)
	require.NoError(t, err)
	again := filmBegun(t, s, FilmFile{"b.y4m", 8}) // which ends the one that is half there
	assert.Equal(t, "a.y4m", again.Replaced)
	answer := make([]byte, 64)
	n, err := c.Read(answer)
	require.NoError(t, err)
	assert.Contains(t, string(answer[:n]), "410")
}

// Ten minutes have no more in memory than their index: pictures are in a file, up to a bound.
func TestPicturesHaveABound(t *testing.T) {
	x, err := newStrip(filepath.Join(t.TempDir(), "p"))
	require.NoError(t, err)
	defer x.close()
	g := filledGray(640, 360)
	for range 3 {
		x.add(g)
	}
	require.NoError(t, x.err)
	assert.Equal(t, [2]int{480, 270}, [2]int{x.wide, x.high})
	x.ends[2] = mostStrip
	x.add(g)
	assert.ErrorContains(t, x.err, "the first 3 frames")
	x.add(g)
	assert.Len(t, x.ends, 3)
	narrow, err := newStrip(filepath.Join(t.TempDir(), "n"))
	require.NoError(t, err)
	defer narrow.close()
	narrow.add(filledGray(100, 40))
	assert.Equal(t, [2]int{100, 40}, [2]int{narrow.wide, narrow.high}, "nothing is made larger")
}

func filledGray(wide, high int) footage.Gray {
	g := footage.NewGray(wide, high)
	for n := range g.Pix {
		g.Pix[n] = float32(n%97) / 97
	}
	return g
}

// isKept has a film that was laid on its plan kept as a take: nothing without a log, then with what
// was found, or as a hand has it.
func isKept(t *testing.T, s *Server, film key, text string, f Filmed) {
	t.Helper()
	answeredBy[Filmed](t, s, "a.toml", "/api/film/lay", filmLaid{film, text})
	first := f.Loops[0]
	accepts := filmAccepts{Film: film, Frame0: f.Zero.At, From: &first.From, To: &first.To}
	a := answeredBy[Accepted](t, s, "a.toml", "/api/film/accept", accepts)
	assert.Empty(t, a.Takes)
	assert.NotEmpty(t, a.Why, "there is no log")

	answeredBy[struct{ Takes []Take }](t, s, "a.toml", "/api/takes", map[string]any{"log": TakeLog{Text: text}})
	a = answeredBy[Accepted](t, s, "a.toml", "/api/film/accept", accepts)
	assert.Equal(t, []int{1}, a.Takes, a.Why)
	keep := func(take int, trust string) int {
		r := request(s, http.MethodPost, "/api/film/keep", filmKeeps{film, take, trust})
		r.Header.Set(shotHeader, "a.toml")
		return served(s, r).Code
	}
	assert.Equal(t, http.StatusUnprocessableEntity, keep(2, ""), "there is no such take")
	assert.Equal(t, http.StatusBadRequest, keep(1, "both"))
	assert.Equal(t, http.StatusOK, keep(1, ""))
	log, err := os.ReadFile("a.takes.jsonl")
	require.NoError(t, err)
	assert.Contains(t, string(log), `"frame_0_by":"picture","trusted":true`, "of three rounds that are alike a hand has said which")
	assert.Contains(t, string(log), fmt.Sprintf(`"loop_in":%d`, first.From))

	moved := *f.Zero.At + 1
	accepts.Frame0 = &moved
	answeredBy[Accepted](t, s, "a.toml", "/api/film/accept", accepts)
	assert.Equal(t, http.StatusOK, keep(1, ""))
	log, err = os.ReadFile("a.takes.jsonl")
	require.NoError(t, err)
	assert.Contains(t, string(log), `"frame_0_by":"hand"`)

	short := first.To - 1
	accepts.To = &short
	answeredBy[Accepted](t, s, "a.toml", "/api/film/accept", accepts)
	assert.Equal(t, http.StatusUnprocessableEntity, keep(1, ""), "a loop of another length")
}
