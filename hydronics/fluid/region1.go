package fluid

import "math"

// The basic equation of IF97 for liquid water (IAPWS R7-97(2012), region 1,
// equation 7) is the dimensionless Gibbs free energy
//
//	γ(π, τ) = Σ n·(7.1 − π)^I·(τ − 1.222)^J,  π = p/16.53 MPa, τ = 1386 K/T
//
// over 34 terms. The properties follow from its derivatives (Table 3 there).
const (
	region1Pressure    = 16.53e6 // p*, Pa
	region1Temperature = 1386    // T*, K
	region1Pi          = 7.1
	region1Tau         = 1.222

	// gasConstant is the specific gas constant of water in IF97, J/(kg·K)
	// (equation 1 there).
	gasConstant = 461.526
)

// gibbs holds the derivatives of γ at one temperature and pressure.
type gibbs struct {
	temperature, tau        float64
	pi, piPi, piTau, tauTau float64
}

// region1 evaluates the derivatives at T in K and p in Pa. Each term is
// computed once, t = n·x^I·y^J with x = 7.1 − π and y = τ − 1.222; the
// derivatives are sums of t with the weights I, J, I·(I−1) and so on, divided at
// the end by x and y, neither of which reaches zero in region 1.
func region1(T, p float64) gibbs {
	tau := region1Temperature / T
	x, y := region1Pi-p/region1Pressure, tau-region1Tau
	var xs, ys powers
	xs.fill(x, stepsOfX[:])
	ys.fill(y, stepsOfY[:])
	var i1, i2, ij, j2 float64
	for k := range region1Terms {
		e := &region1Terms[k]
		t := e.n * xs.to(e.i) * ys.to(e.j)
		it, jt := float64(e.i)*t, float64(e.j)*t
		i1 += it
		i2 += float64(float64(e.i-1) * it)
		ij += float64(float64(e.j) * it)
		j2 += float64(float64(e.j-1) * jt)
	}
	return gibbs{
		temperature: T, tau: tau,
		pi: -i1 / x, piPi: i2 / (x * x), piTau: -ij / (x * y), tauTau: j2 / (y * y),
	}
}

// density is 1/v in kg/m³, with v = π·γπ·R·T/p.
func (g *gibbs) density() float64 {
	return region1Pressure / (g.pi * gasConstant * g.temperature)
}

// specificHeat is cp = −τ²·γττ·R in J/(kg·K).
func (g *gibbs) specificHeat() float64 {
	return -g.tau * g.tau * g.tauTau * gasConstant
}

// isochoricSpecificHeat is cv = R·(−τ²·γττ + (γπ − τ·γπτ)²/γππ) in J/(kg·K).
func (g *gibbs) isochoricSpecificHeat() float64 {
	d := g.pi - float64(g.tau*g.piTau)
	return g.specificHeat() + gasConstant*d*d/g.piPi
}

// speedOfSound is w in m/s, with w² = γπ²·R·T/((γπ − τ·γπτ)²/(τ²·γττ) − γππ).
func (g *gibbs) speedOfSound() float64 {
	d := g.pi - float64(g.tau*g.piTau)
	return g.pi * math.Sqrt(gasConstant*g.temperature/(d*d/(g.tau*g.tau*g.tauTau)-g.piPi))
}

// densityByPressure is (∂ρ/∂p) at constant T in kg/(m³·Pa), from v.
func (g *gibbs) densityByPressure() float64 {
	return -g.piPi / (g.pi * g.pi * gasConstant * g.temperature)
}

// powers holds powers of a number, each at the index of its exponent modulo 64:
// with exponents from −41 to 32 no two that are used together meet.
type powers [64]float64

func (p *powers) to(exponent int) float64 { return p[uint(exponent)%64] }

// fill sets the powers 0, 1 and −1 of x, then takes the steps.
func (p *powers) fill(x float64, steps []step) {
	p[0], p[1], p[63] = 1, x, 1/x
	for _, s := range steps {
		p[uint(s.a+s.b)%64] = p.to(s.a) * p.to(s.b)
	}
}

// A step makes the power a + b out of the powers a and b.
type step struct{ a, b int }

// The steps to the exponents of region1Terms.
var (
	stepsOfX = [...]step{ // 2 3 4 5 8 16 21 23 29 30 31 32
		{1, 1}, {2, 1}, {2, 2}, {3, 2}, {4, 4}, {8, 8}, {16, 5}, {21, 2}, {21, 8}, {29, 1}, {29, 2}, {16, 16},
	}
	stepsOfY = [...]step{ // 2 3 4 5 6 7 10 17, −2 … −11, −20 −29 −31 −38 −39 −40 −41
		{1, 1}, {2, 1}, {2, 2}, {3, 2}, {3, 3}, {4, 3}, {5, 5}, {10, 7},
		{-1, -1}, {-2, -1}, {-2, -2}, {-3, -2}, {-3, -3}, {-4, -3}, {-4, -4}, {-5, -4}, {-5, -5}, {-6, -5},
		{-10, -10}, {-20, -9}, {-20, -11}, {-29, -9}, {-29, -10}, {-20, -20}, {-31, -10},
	}
)

// region1Terms are the exponents and coefficients of Table 2 of the release.
var region1Terms = [34]struct {
	i, j int
	n    float64
}{
	{0, -2, 0.14632971213167},
	{0, -1, -0.84548187169114},
	{0, 0, -0.37563603672040e1},
	{0, 1, 0.33855169168385e1},
	{0, 2, -0.95791963387872},
	{0, 3, 0.15772038513228},
	{0, 4, -0.16616417199501e-1},
	{0, 5, 0.81214629983568e-3},
	{1, -9, 0.28319080123804e-3},
	{1, -7, -0.60706301565874e-3},
	{1, -1, -0.18990068218419e-1},
	{1, 0, -0.32529748770505e-1},
	{1, 1, -0.21841717175414e-1},
	{1, 3, -0.52838357969930e-4},
	{2, -3, -0.47184321073267e-3},
	{2, 0, -0.30001780793026e-3},
	{2, 1, 0.47661393906987e-4},
	{2, 3, -0.44141845330846e-5},
	{2, 17, -0.72694996297594e-15},
	{3, -4, -0.31679644845054e-4},
	{3, 0, -0.28270797985312e-5},
	{3, 6, -0.85205128120103e-9},
	{4, -5, -0.22425281908000e-5},
	{4, -2, -0.65171222895601e-6},
	{4, 10, -0.14341729937924e-12},
	{5, -8, -0.40516996860117e-6},
	{8, -11, -0.12734301741641e-8},
	{8, -6, -0.17424871230634e-9},
	{21, -29, -0.68762131295531e-18},
	{23, -31, 0.14478307828521e-19},
	{29, -38, 0.26335781662795e-22},
	{30, -39, -0.11947622640071e-22},
	{31, -40, 0.18228094581404e-23},
	{32, -41, -0.93537087292458e-25},
}
