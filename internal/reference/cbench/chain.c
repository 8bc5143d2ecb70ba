/*
 * chain: the response chain of a control valve and its actuator in plain C, the
 * yardstick of the Go library's speed. Usage, keys and figures: README.md.
 *
 *   signal -> demand -> opening demand -> shaping -> relative travel
 *          -> stem extension -> relative flow coefficient -> flow
 *
 * Units: volts, Pa, m3/s; travel, extension and coefficient are fractions.
 * All figures of the model are invented.
 */
#define _POSIX_C_SOURCE 199309L
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#if defined(__GNUC__) && !defined(__clang__)
#define SEPARATE __attribute__((noipa)) /* as if in another translation unit */
#else
#define SEPARATE __attribute__((noinline))
#endif

/* line is a + b*x; it turns a fraction over (1, -1) or leaves it (0, 1). */
struct line {
	double a, b;
};

struct actuator {
	double zero, per_volt;    /* of the input range */
	struct line to_opening;   /* demand -> opening demand */
	double ln_ratio, inverse; /* shaping: ln R and 1/(R - 1) */
	double scale, top;        /* stroke of the drive over the valve's; greatest travel */
	struct line to_stem;      /* relative travel -> stem extension */
};

struct valve {
	struct line to_travel; /* stem extension -> relative travel */
	double floor, slope;   /* linear: floor = 1/R0, slope = 1 - 1/R0 */
	double closing;        /* travel below which a straight line runs to the leakage */
	double leakage, rise;  /* coefficient at travel 0 and the slope of that line */
};

struct chain {
	struct actuator drive;
	struct valve body;
	/* pressure-independent */
	double set_flow; /* of the setting, fully open */
	double control;  /* pressure that the regulator holds across the orifice */
	double excess;   /* (set_flow/Kv_r)^2, across the wide-open regulator */
	double drift;    /* proportional band over its range of pressure, 1/Pa */
	/* two-way, in series with the rest of its branch */
	double full_flow; /* of the branch with the valve open, at its design pressure */
	double authority;
	double open; /* K of the open valve in q = K*sqrt(dp) */
	double rest; /* resistance of the rest of the branch, dp = rest*q^2 */
};

static inline double at(struct line l, double x) { return l.a + l.b * x; }

/* extension brings a signal to the stem. */
static inline double extension(const struct actuator *d, double volts)
{
	double demand = (volts - d->zero) * d->per_volt;
	demand = demand < 0 ? 0 : demand > 1 ? 1 : demand;
	double opening = at(d->to_opening, demand);
	double shaped = (exp(d->ln_ratio * opening) - 1) * d->inverse;
	double travel = d->scale * shaped;
	return at(d->to_stem, travel > d->top ? d->top : travel);
}

/* coefficient is the valve's relative flow coefficient for a stem extension. */
static inline double coefficient(const struct valve *v, double out)
{
	double h = at(v->to_travel, out);
	return h < v->closing ? v->leakage + v->rise * h : v->floor + v->slope * h;
}

/*
 * Regulated flow with the drift of the proportional band above the pressure
 * control + excess*phi^2; below it the orifice and the wide-open regulator in
 * series, whose 1/Kv^2 = 1/Kv_o^2 + 1/Kv_r^2 passes phi*set_flow at that pressure.
 */
static inline double pressure_independent(const struct chain *c, double volts, double dp)
{
	double phi = coefficient(&c->body, extension(&c->drive, volts));
	double q = phi * c->set_flow;
	double onset = c->control + c->excess * phi * phi;
	double over = dp - onset;
	return over >= 0 ? q + q * c->drift * over : q * sqrt(dp / onset);
}

/* The closed form of the installed characteristic, at the design pressure. */
static inline double under_authority(const struct chain *c, double volts, double dp)
{
	(void)dp;
	double phi = coefficient(&c->body, extension(&c->drive, volts));
	return c->full_flow * phi / sqrt(phi * phi * (1 - c->authority) + c->authority);
}

/* The same valve in the same branch, at any pressure over the branch. */
static inline double in_branch(const struct chain *c, double volts, double dp)
{
	double k = c->open * coefficient(&c->body, extension(&c->drive, volts));
	return k * sqrt(dp / (1 + c->rest * k * k));
}

static const double enough = 40e3, starved = 8e3; /* pressures over valve or branch */

/*
 * The model comes from numbers that the compiler cannot know. A 0-10 V drive
 * with reverse action (a rising signal retracts the stem) on a push-to-close
 * valve, which therefore opens on a rising signal.
 */
static SEPARATE struct chain new_chain(double ratio, double valve_stroke, double drive_stroke)
{
	const double design_pressure = enough, full_pressure = 20e3, greatest_pressure = 400e3;
	const double band = 0.05;
	struct chain c = {
		.drive = {
			.zero = 0, .per_volt = 1.0 / 10, .to_opening = {0, 1},
			.ln_ratio = log(ratio), .inverse = 1 / (ratio - 1),
			.scale = drive_stroke / valve_stroke, .top = 1, .to_stem = {1, -1},
		},
		.body = {
			.to_travel = {1, -1}, .floor = 1 / ratio, .slope = 1 - 1 / ratio,
			.closing = 0.01, .leakage = 1e-4,
		},
		.set_flow = 1.2e-4, .control = 12e3, .excess = full_pressure - 12e3,
		.drift = band / (greatest_pressure - full_pressure),
		.full_flow = 1.2e-4, .authority = 0.4,
	};
	struct valve *v = &c.body;
	v->rise = (v->floor + v->slope * v->closing - v->leakage) / v->closing;
	c.open = c.full_flow / sqrt(c.authority * design_pressure);
	c.rest = (1 - c.authority) * design_pressure / (c.full_flow * c.full_flow);
	return c;
}

enum { SIGNALS = 1024, LAPS = 50, TRIES = 200 };

static double signals[SIGNALS];

/* Spreads over 0 ... 10 V, both ends included, out of order. */
static void make_signals(void)
{
	for (int i = 0; i < SIGNALS; i++)
		signals[i] = 10.0 * (i * 389 % SIGNALS) / (SIGNALS - 1);
}

static double now_ns(void)
{
	struct timespec t;
	clock_gettime(CLOCK_MONOTONIC, &t);
	return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

static volatile double sink;

typedef void laps(const struct chain *c, double dp);

/*
 * Two loops over the signals for each law: one that calls it once a signal, as a
 * program calls a library, and one into which the compiler may inline it. The
 * empty assembly makes it read the signals again on each lap.
 */
#define LAPS_OF(law)                                                          \
	static SEPARATE double call_##law(const struct chain *c, double volts,    \
	                                  double dp)                              \
	{                                                                         \
		return law(c, volts, dp);                                             \
	}                                                                         \
	static SEPARATE void laps_##law(const struct chain *c, double dp)         \
	{                                                                         \
		double sum = 0;                                                       \
		for (int lap = 0; lap < LAPS; lap++) {                                \
			for (int i = 0; i < SIGNALS; i++)                                 \
				sum += call_##law(c, signals[i], dp);                         \
			__asm__ volatile("" ::: "memory");                                \
		}                                                                     \
		sink = sum;                                                           \
	}                                                                         \
	static SEPARATE void laps_inlined_##law(const struct chain *c, double dp) \
	{                                                                         \
		double sum = 0;                                                       \
		for (int lap = 0; lap < LAPS; lap++) {                                \
			for (int i = 0; i < SIGNALS; i++)                                 \
				sum += law(c, signals[i], dp);                                \
			__asm__ volatile("" ::: "memory");                                \
		}                                                                     \
		sink = sum;                                                           \
	}

LAPS_OF(pressure_independent)
LAPS_OF(under_authority)
LAPS_OF(in_branch)

/*
 * measure prints the shortest time of one evaluation by each law. The laws take
 * turns, so that a disturbance of the machine meets all of them.
 */
static void measure(const struct chain *c)
{
	struct {
		const char *key;
		laps *run;
		double dp, least_ns;
	} cases[] = {
		{"pressure_independent_ns", laps_pressure_independent, enough, INFINITY},
		{"starved_ns", laps_pressure_independent, starved, INFINITY},
		{"under_authority_ns", laps_under_authority, enough, INFINITY},
		{"in_branch_ns", laps_in_branch, enough, INFINITY},
		{"pressure_independent_inlined_ns", laps_inlined_pressure_independent, enough, INFINITY},
		{"starved_inlined_ns", laps_inlined_pressure_independent, starved, INFINITY},
		{"under_authority_inlined_ns", laps_inlined_under_authority, enough, INFINITY},
		{"in_branch_inlined_ns", laps_inlined_in_branch, enough, INFINITY},
	};
	const int n = sizeof cases / sizeof cases[0];
	for (int t = 0; t < TRIES; t++)
		for (int i = 0; i < n; i++) {
			double start = now_ns();
			cases[i].run(c, cases[i].dp);
			cases[i].least_ns = fmin(cases[i].least_ns, now_ns() - start);
		}
	for (int i = 0; i < n; i++)
		printf("%s %.3f\n", cases[i].key, cases[i].least_ns / ((double)LAPS * SIGNALS));
}

/* values prints what each law makes of each signal, to check another program. */
static void values(const struct chain *c)
{
	puts("volts,extension,coefficient,pressure_independent_m3_s,starved_m3_s,under_authority_m3_s,in_branch_m3_s");
	for (int i = 0; i < SIGNALS; i++) {
		double v = signals[i], out = extension(&c->drive, v);
		printf("%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n", v, out, coefficient(&c->body, out),
		       pressure_independent(c, v, enough), pressure_independent(c, v, starved),
		       under_authority(c, v, enough), in_branch(c, v, enough));
	}
}

/*
 * wrong returns what is wrong with the model, or NULL. Zero-based shaping of ratio R on
 * a linear valve with R0 = R is equal percentage, R^(x - 1); and the two forms of
 * the installed characteristic are one.
 */
static const char *wrong(const struct chain *c, double ratio)
{
	for (int i = 0; i < SIGNALS; i++) {
		double v = signals[i], out = extension(&c->drive, v);
		double phi = coefficient(&c->body, out);
		if (1 - out > c->body.closing && fabs(phi / pow(ratio, v / 10 - 1) - 1) > 1e-12)
			return "the shaped valve is not equal percentage";
		if (fabs(in_branch(c, v, enough) / under_authority(c, v, enough) - 1) > 1e-12)
			return "the forms of the installed characteristic differ";
	}
	return NULL;
}

int main(int argc, char **argv)
{
	double ratio = 50, valve_stroke = 5e-3, drive_stroke = 5e-3;
	struct chain c = new_chain(ratio, valve_stroke, drive_stroke);
	make_signals();
	const char *fault = wrong(&c, ratio);
	if (fault) {
		fprintf(stderr, "chain: %s\n", fault);
		return 1;
	}
	if (argc == 2 && strcmp(argv[1], "values") == 0) {
		values(&c);
	} else if (argc == 1) {
		measure(&c);
	} else {
		fputs("usage: chain [values]\n", stderr);
		return 2;
	}
	return 0;
}
