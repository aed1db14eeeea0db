package beam

// polynomial holds the coefficients of 1, u, u² … u¹¹ for u from 0 to 1.
type polynomial [12]float64

func (g *polynomial) at(u float64) float64 {
	v := g[len(g)-1]
	for i := len(g) - 2; i >= 0; i-- {
		v = v*u + g[i]
	}
	return v
}

// crests calls visit for every u between 0 and 1 at which g falls through
// zero, and perhaps for some others. The polynomial is written in Bernstein's
// basis, whose coefficients change sign at least as often as the polynomial
// has zeros (Descartes's rule); the range is halved until they change sign
// once at most. So no zero is missed, however close to another.
func (g *polynomial) crests(visit func(u float64)) {
	// Coefficients in Bernstein's basis: Σ C(k,i)/C(11,i) g[i] over i ≤ k.
	var b polynomial
	for k := range b {
		ratio := 1.0
		for i := 0; i <= k; i++ {
			b[k] += ratio * g[i]
			ratio *= float64(k-i) / float64(len(b)-1-i)
		}
	}
	g.split(b, 0, 1, 0, visit)
}

// deepest is how often the range is halved at most.
const deepest = 40

func (g *polynomial) split(b polynomial, low, high float64, depth int, visit func(u float64)) {
	changes, first, last := b.signChanges()
	switch {
	case changes == 0:
		return
	case changes == 1:
		if first > 0 && last < 0 {
			visit(g.zero(low, high))
		}
		return
	}
	middle := (low + high) / 2
	visit(middle) // a zero just there shows on neither side
	if depth == deepest {
		return
	}
	// De Casteljau's halving.
	var left polynomial
	for i := range b {
		left[i] = b[0]
		for j := 0; j < len(b)-1-i; j++ {
			b[j] = (b[j] + b[j+1]) / 2
		}
	}
	// What is left in b are the coefficients of the right half.
	g.split(left, low, middle, depth+1, visit)
	g.split(b, middle, high, depth+1, visit)
}

// signChanges counts the changes of sign, zeros left out, and gives the first
// and the last coefficient that is not zero.
func (g *polynomial) signChanges() (changes int, first, last float64) {
	for _, v := range g {
		if v == 0 {
			continue
		}
		if first == 0 {
			first = v
		}
		if last != 0 && (last > 0) != (v > 0) {
			changes++
		}
		last = v
	}
	return changes, first, last
}

// zero is where g falls through zero between low and high, where it does so
// once. It is found by halving: at a rigid support g is zero but for rounding,
// and anything that leans on its value there is led astray.
func (g *polynomial) zero(low, high float64) float64 {
	for range 50 {
		middle := (low + high) / 2
		if g.at(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}
