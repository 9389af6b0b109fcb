package cutting

// rooms is what is left of bars in the order they were opened, as a tree of
// maxima: the first bar with room for a piece is found in a few steps.
type rooms struct {
	tree  []int // of twice the size; the bars are its second half
	size  int
	count int
}

// newRooms gives room for up to most bars, the first of them with that left.
func newRooms(left []int, most int) *rooms {
	r := &rooms{size: 1}
	for r.size < most {
		r.size *= 2
	}
	r.tree = make([]int, 2*r.size)
	for _, l := range left {
		r.add(l)
	}
	return r
}

func (r *rooms) at(bar int) int { return r.tree[r.size+bar] }

// add opens a bar.
func (r *rooms) add(room int) {
	r.count++
	r.take(r.count-1, -room)
}

// take makes a bar's room less.
func (r *rooms) take(bar, length int) {
	k := r.size + bar
	r.tree[k] -= length
	for k /= 2; k > 0; k /= 2 {
		r.tree[k] = max(r.tree[2*k], r.tree[2*k+1])
	}
}

// first gives the first bar with room for a length, or -1.
func (r *rooms) first(length int) int {
	if r.tree[1] < length {
		return -1
	}
	k := 1
	for k < r.size {
		k *= 2
		if r.tree[k] < length {
			k++
		}
	}
	return k - r.size
}
