package storage

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"sync"

	"haunchbook.example/app/job"
)

// A picture, of a sketch or a photograph, is large and seldom changes, while every edit
// stores a whole state of its job. So a picture is stored once in a job, as a file under the
// hash of its bytes, and the states refer to it: their job file says "picture:" and
// the hash where the picture would stand. A picture goes with the last state that
// refers to it.

const pictureMark = "picture:"

// pictureKey gives the key of a picture of job id by its hash.
func pictureKey(id ID, sum []byte) key { return key{uint64(id), binary.BigEndian.Uint64(sum)} }

// pictureCache keeps the pictures that were read or written last, so that an edit
// need not take them apart again.
type pictureCache struct {
	sync.Mutex
	kept []keptPicture
}

// keptPicture is a picture as it stands in a job, and as in a stored state.
type keptPicture struct{ text, ref string }

// mostPictures is how many are kept: all those of a job.
const mostPictures = 32

func (c *pictureCache) keep(text, ref string) {
	c.Lock()
	defer c.Unlock()
	if len(c.kept) == mostPictures {
		c.kept = slices.Delete(c.kept, 0, 1)
	}
	c.kept = append(c.kept, keptPicture{text, ref})
}

func (c *pictureCache) forget() {
	c.Lock()
	defer c.Unlock()
	c.kept = nil
}

// find gives the picture that is the one asked for; the zero one where none is.
func (c *pictureCache) find(is func(keptPicture) bool) keptPicture {
	c.Lock()
	defer c.Unlock()
	if i := slices.IndexFunc(c.kept, is); i >= 0 {
		return c.kept[i]
	}
	return keptPicture{}
}

// encode gives job j as it is stored as a state of job id, and stores its pictures
// unless they are there.
func (t *tx) encode(id ID, j job.Job) ([]byte, error) {
	var faults []error
	j = j.WithPictures(func(text string) string {
		ref, err := t.keepPicture(id, text)
		faults = append(faults, err)
		return ref
	})
	return j.Encode(), errors.Join(faults...)
}

// keepPicture gives a picture as it stands in stored states of job id, and stores it unless
// it is there.
func (t *tx) keepPicture(id ID, text string) (string, error) {
	if ref := t.pictures.find(func(p keptPicture) bool { return p.text == text }).ref; ref != "" {
		if sum, ok := pictureSum(ref); ok && t.has(inPictures, pictureKey(id, sum)) {
			return ref, nil
		}
	}
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil || base64.StdEncoding.EncodeToString(file) != text {
		return text, nil // no picture, or not as it would come back: kept as it stands
	}
	sum := sha256.Sum256(file)
	k := pictureKey(id, sum[:])
	if old, err := t.get(inPictures, k); err != nil || !bytes.Equal(old, file) {
		if err == nil {
			return text, nil // another picture has this key: as good as never
		}
		if err := t.put(inPictures, k, file); err != nil {
			return "", err
		}
	}
	ref := pictureMark + hex.EncodeToString(sum[:])
	t.pictures.keep(text, ref)
	return ref, nil
}

// decode reads a stored state of job id with its pictures.
func (t *tx) decode(id ID, data []byte) (job.Job, error) {
	j, err := readJob(data)
	if err != nil {
		return j, err
	}
	var faults []error
	j = j.WithPictures(func(ref string) string {
		text, err := t.pictureOf(id, ref)
		faults = append(faults, err)
		return text
	})
	return j, errors.Join(faults...)
}

// pictureOf gives a picture that a stored state of job id refers to, as it stands in a job.
func (t *tx) pictureOf(id ID, ref string) (string, error) {
	sum, ok := pictureSum(ref)
	if !ok {
		return ref, nil
	}
	if text := t.pictures.find(func(p keptPicture) bool { return p.ref == ref }).text; text != "" {
		return text, nil
	}
	file, err := t.get(inPictures, pictureKey(id, sum))
	if err == nil {
		if got := sha256.Sum256(file); !bytes.Equal(got[:], sum) {
			err = errChecksum
		}
	}
	if err != nil {
		return ref, damaged(t.path, fmt.Sprintf("a picture of job %v is damaged or gone", id), err)
	}
	text := base64.StdEncoding.EncodeToString(file)
	t.pictures.keep(text, ref)
	return text, nil
}

// whole gives a stored state as a job file that stands by itself.
func (t *tx) whole(id ID, data []byte) ([]byte, error) {
	if len(picturesOf(data)) == 0 {
		return data, nil
	}
	j, err := t.decode(id, data)
	return j.Encode(), err
}

// pictureSum gives the hash in a reference to a picture.
func pictureSum(ref string) ([]byte, bool) {
	if len(ref) != len(pictureMark)+2*sha256.Size || ref[:len(pictureMark)] != pictureMark {
		return nil, false
	}
	sum, err := hex.DecodeString(ref[len(pictureMark):])
	return sum, err == nil
}

// picturesOf gives the references in a stored state, each once. It looks for no more than
// the text: what looks like one in a note keeps a picture for longer than it must
// be kept, and does no harm.
func picturesOf(data []byte) (refs []string) {
	const size = len(pictureMark) + 2*sha256.Size
	for {
		i := bytes.Index(data, []byte(pictureMark))
		if i < 0 || len(data) < i+size {
			return refs
		}
		ref := string(data[i : i+size])
		if _, ok := pictureSum(ref); ok && !slices.Contains(refs, ref) {
			refs = append(refs, ref)
		}
		data = data[i+len(pictureMark):]
	}
}

// dropPictures removes the pictures of job id that no state refers to.
func (t *tx) dropPictures(id ID) error {
	unused := map[key]bool{}
	err := t.each(inPictures, uint64(id), func(k key, _ []byte, _ error) error {
		unused[k] = true
		return nil
	})
	if err != nil || len(unused) == 0 {
		return err
	}
	for _, in := range []bucket{inJobs, inEdits, inRevisions} {
		err := t.each(in, uint64(id), func(k key, payload []byte, err error) error {
			if err != nil {
				return err // what it refers to is not known: keep all
			}
			if in == inEdits {
				e, err := t.getEdit(id, k.b)
				if err != nil {
					return err
				}
				payload = e.data
			}
			for _, ref := range picturesOf(payload) {
				sum, _ := pictureSum(ref)
				delete(unused, pictureKey(id, sum))
			}
			return nil
		})
		if IsKind(err, Damaged) {
			return nil
		}
		if err != nil {
			return err
		}
	}
	var errs []error
	for k := range unused {
		errs = append(errs, t.delete(inPictures, k))
	}
	return errors.Join(errs...)
}

// hasPictures tells whether any picture of job id is stored.
func (t *tx) hasPictures(id ID) bool {
	bk := t.Bucket(inPictures.name())
	if bk == nil {
		return false
	}
	k, _ := bk.Cursor().Seek(key{uint64(id), 0}.bytes())
	got, ok := keyOf(k)
	return ok && got.a == uint64(id)
}

// picturesOnce brings a book of form 1, whose states each held their picture, to
// form 2.
func picturesOnce(t *tx) error {
	for _, in := range []bucket{inJobs, inEdits, inRevisions} {
		var keys []key
		err := t.each(in, 0, func(k key, payload []byte, err error) error {
			if err == nil && bytes.Contains(payload, []byte(`"trace"`)) {
				keys = append(keys, k)
			}
			return nil // a damaged record stays as it is
		})
		if err != nil {
			return err
		}
		for _, k := range keys {
			if err := t.pictureOnce(in, k); err != nil {
				return err
			}
		}
	}
	return nil
}

func (t *tx) pictureOnce(in bucket, k key) error {
	payload, err := t.get(in, k)
	if err != nil {
		return err
	}
	e := edit{data: payload}
	if in != inJobs {
		if e, err = parseEdit(payload); err != nil {
			return err
		}
	}
	j, err := readJob(e.data)
	if err != nil || !j.Sketch.Any() {
		return nil // reads no better elsewhere
	}
	data, err := t.encode(ID(k.a), j)
	if err != nil {
		return err
	}
	if in == inJobs {
		return t.put(in, k, data)
	}
	e.data = data
	return t.putState(in, k, e)
}
