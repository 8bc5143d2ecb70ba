% Control loops by GNU Octave and its control package: limits of stability, margins and step responses.
1;
pkg load control

function main(args)
  tables = {
    struct("name", "control_ultimate", "count", 100, "rows", @ultimate_rows,
      "law", "limit of stability of a first-order lag with dead time under a proportional controller",
      "source", "Nyquist's phase condition ωθ + atan(ωτ) = π, solved by fzero; the magnitude by the control package's freqresp",
      "columns", "gain,tau_s,theta_s,w_rad_s,Ku,Pu_s", "units", "1, s, s, rad/s, 1, s",
      "notes", {{"the first two rows are printed check values, which the generator insists on"}}),
    struct("name", "control_margins", "count", 120, "rows", @margin_rows,
      "law", "gain margin, phase margin and greatest sensitivity of PI and PID control of a lag with dead time",
      "source", "frequency response by the control package's freqresp of the rational part, times e^(−jωθ); crossings by fzero, maximum by fminbnd",
      "columns", "gain,tau_s,theta_s,Kc,Ti_s,Td_s,N,gain_margin,phase_margin_rad,Ms", "units", "1, s, s, 1, s, s, 1, 1, rad, 1",
      "notes", {{"the first row is SIMC with the dead time for closed-loop time constant, printed as 3.14, 61.4° and 1.59, which the generator insists on",
        "C = Kc·(1 + 1/(Ti·s) + Td·s/(1 + Td·s/N)); Td = 0 is PI; stable loops only"}}),
    struct("name", "control_step", "count", 12, "rows", @step_rows,
      "law", "step response of a lag with dead time, held input, under a sampled PID controller",
      "source", "control package: c2d (zero-order hold), closed loop of transfer functions in z, lsim",
      "columns", "gain,tau_s,theta_s,step_s,Kc,Ti_s,Td_s,N,b,k,y,u", "units", "1, s, s, s, 1, s, s, 1, 1, 1, 1, 1",
      "notes", {{"u = P + I + D: P = Kc·(b·r − y), I by backward difference, D on −y by backward difference with filter Td/N",
        "set point 0 before and 1 from k = 0; y at k·step, u from k to k + 1; u is not limited"}}),
    struct("name", "control_response", "count", 8, "rows", @response_rows,
      "law", "step response of a lag with dead time under a PI controller in continuous time",
      "source", "sum over n of (−1)^(n+1)·(step response of the n-th power of the loop without dead time, n·θ later), each by expm of its state space",
      "columns", "gain,tau_s,theta_s,Kc,Ti_s,t_s,y", "units", "1, s, s, 1, s, s, 1",
      "tolerance", "the model is stepped in time; what is left is that of the extrapolation to no step",
      "notes", {{"exact, since each term begins n·θ late; the first case, with Ti = tau, is checked against its polynomial by the generator"}})
  };
  names = cellfun(@(t) t.name, tables, "UniformOutput", false);
  seed = 1; count = []; name = names{1}; record = false; k = 1;
  while k <= numel(args)
    switch args{k}
      case "--list"
        printf("%s\n", names{:});
        return
      case "--record"
        record = true;
      case "--seed"
        seed = str2double(args{++k});
      case "--count"
        count = str2double(args{++k});
      case "--table"
        name = args{++k};
      otherwise
        error("unknown argument %s", args{k});
    end
    k++;
  end
  if record
    folder = fullfile(fileparts(mfilename("fullpath")), "..", "data");
    for k = 1:numel(tables)
      out = fopen(fullfile(folder, [names{k} ".csv"]), "w");
      write_table(out, tables{k}, 1, tables{k}.count);
      fclose(out);
    end
    return
  end
  table = tables{find(strcmp(names, name))};
  if isempty(count)
    count = table.count;
  end
  write_table(stdout, table, seed, count);
end

function write_table(out, table, seed, count)
  rand("twister", seed);
  packages = pkg("list");
  at = find(cellfun(@(p) strcmp(p.name, "control"), packages));
  fprintf(out, "# law: %s\n# source: %s\n", table.law, table.source);
  fprintf(out, "# version: GNU Octave %s, control %s\n", OCTAVE_VERSION, packages{at}.version);
  fprintf(out, "# generator: gen/control.m\n# units: %s\n", table.units);
  if isfield(table, "tolerance")
    fprintf(out, "# tolerance: %s\n", table.tolerance);
  end
  fprintf(out, "# note: %s\n", table.notes{:});
  fprintf(out, "# note: seed %d, %d random cases\n%s\n", seed, count, table.columns);
  rows = table.rows(count);
  for r = 1:rows_of(rows)
    cells = arrayfun(@shortest, rows(r, :), "UniformOutput", false);
    fprintf(out, "%s\n", strjoin(cells, ","));
  end
end

function n = rows_of(m)
  n = size(m, 1);
end

function text = shortest(x)
  if ! isfinite(x)
    error("not a finite number");
  end
  if x == fix(x) && abs(x) < 1e15
    text = sprintf("%d", x);
    return
  end
  for digits = 1:17
    text = sprintf("%.*g", digits, x);
    if str2double(text) == x
      return
    end
  end
end

% A random input of six digits, spread evenly over the decades.
function x = spread(low, high)
  x = six(exp(log(low) + rand() * (log(high) - log(low))));
end

function x = six(x)
  x = str2double(sprintf("%.6g", x));
end

function insist(ok, what)
  if ! ok
    error("not as printed: %s", what);
  end
end

% --- limits of stability

function rows = ultimate_rows(count)
  rows = [ultimate(1, 1, 1); ultimate(1, 10, 1)];
  insist(all(abs(rows(1, 4:6) - [2.02876 2.26183 3.09706]) < 0.5e-5), "ultimate 1, 1, 1");
  insist(all(abs(rows(2, 5:6) - [16.3506 3.85000]) < [0.5e-4 0.5e-5]), "ultimate 1, 10, 1");
  for k = 1:count
    rows(end + 1, :) = ultimate(spread(0.1, 100), spread(1, 10000), spread(1, 1000));
  end
end

function row = ultimate(gain, tau, theta)
  x = fzero(@(x) x + atan(x * tau / theta) - pi, [pi / 2, pi], optimset("TolX", 0));
  w = x / theta;
  row = [gain, tau, theta, w, 1 / abs(freqresp(tf(gain, [tau 1]), w)), 2 * pi / w];
end

% --- margins

function rows = margin_rows(count)
  rows = margins(1, 1, 1, 0.5, 1, 0, 10);
  printed = [3.14 61.4 1.59];
  insist(all(abs([rows(8), rows(9) * 180 / pi, rows(10)] - printed) <= [0.005 0.05 0.005]), "SIMC");
  while rows_of(rows) <= count
    gain = spread(0.1, 100);
    theta = spread(1, 1000);
    tau = six(theta * spread(0.1, 100));
    row = ultimate(gain, tau, theta);
    Kc = six(row(5) * spread(0.1, 0.6));
    Ti = six(row(6) * spread(0.5, 5));
    Td = 0;
    if mod(rows_of(rows), 2)
      Td = six(row(6) * spread(0.02, 0.15));
    end
    row = margins(gain, tau, theta, Kc, Ti, Td, 10);
    if row(8) > 1.05 && row(9) > 0
      rows(end + 1, :) = row;
    end
  end
end

function row = margins(gain, tau, theta, Kc, Ti, Td, N)
  s = tf("s");
  C = Kc * (1 + 1 / (Ti * s));
  if Td > 0
    C = C + Kc * Td * s / (1 + Td / N * s);
  end
  sys = C * tf(gain, [tau 1]);
  w = logspace(-4, 2, 6000) / theta;
  H = squeeze(freqresp(sys, w)).';
  size_of = abs(H);
  phase = unwrap(angle(H)) - w * theta;
  phase += -2 * pi * round((phase(1) + pi / 2) / (2 * pi)); % begins at -90 degrees
  one = @(w) squeeze(freqresp(sys, w)) * exp(-1i * w * theta);
  gm = Inf;
  turns = floor((pi - phase) / (2 * pi)); % passes of -pi, -3 pi and so on: the largest loop there counts
  for k = find(diff(turns) > 0)
    wp = fzero(@(w) imag(one(w)) / abs(one(w)), w([k, k + 1]), optimset("TolX", 0));
    gm = min(gm, 1 / abs(one(wp)));
  end
  k = find(size_of < 1, 1);
  pm = NaN;
  if k > 1 && all(size_of(k:end) < 1) && all(size_of(1:k - 1) > 1)
    wc = fzero(@(w) log(abs(one(w))), w([k - 1, k]), optimset("TolX", 0));
    pm = pi + angle(one(wc));
    if phase(k) < -pi
      pm = -1;
    end
  end
  S = abs(1 ./ (1 + H .* exp(-1i * w * theta)));
  [top, k] = max(S);
  [wm, least] = fminbnd(@(w) abs(1 + one(w)), w(k - 1), w(k + 1), optimset("TolX", 1e-10 / theta));
  row = [gain, tau, theta, Kc, Ti, Td, N, gm, pm, max(top, 1 / least)];
end

% --- sampled loop

function rows = step_rows(count)
  rows = [];
  for c = 1:count
    gain = spread(0.2, 50);
    h = round(10 * spread(0.5, 20)) / 10;
    d = floor(rand() * 12);
    theta = six(d * h); % exact, since h has one decimal
    tau = six(h * spread(5, 200));
    Kc = six(spread(0.2, 0.6) * tau / (gain * (theta + 2 * h)));
    Ti = six(min(tau, 8 * (theta + 2 * h)));
    Td = six(mod(c, 2) * 0.3 * (theta + h));
    b = 1 - (mod(c, 3) == 2) * 0.6;
    rows = [rows; sampled(gain, tau, theta, h, Kc, Ti, Td, 10, b, d)];
  end
end

function rows = sampled(gain, tau, theta, h, Kc, Ti, Td, N, b, d)
  z = tf("z", h);
  plant = ss(c2d(tf(gain, [tau 1]), h, "zoh")) * ss(z^-d);
  integral = ss(Kc * h / Ti * z / (z - 1));
  derivative = 0;
  if Td > 0
    a = Td / (Td + N * h);
    derivative = ss(Kc * N * a * (z - 1) / (z - a));
  end
  controller = integral * [1, -1] + [Kc * b, -Kc] + derivative * [0, -1]; % of r and y
  loop = feedback([plant; 1] * controller, ss(1), 2, 1, +1);
  k = 0:60;
  out = lsim(loop, [ones(61, 1), zeros(61, 1)], k * h);
  y = out(:, 1);
  u = out(:, 2);
  pick = [0:6, 8:3:60] + 1;
  n = numel(pick);
  rows = [repmat([gain, tau, theta, h, Kc, Ti, Td, N, b], n, 1), k(pick).', y(pick), u(pick)];
end

% --- continuous loop

function rows = response_rows(count)
  rows = response(1, 1, 1, 0.5, 1);
  for r = 1:rows_of(rows)
    t = rows(r, 6);
    n = 1:floor(t);
    y = sum((-1) .^ (n + 1) .* (0.5 * (t - n)) .^ n ./ factorial(n));
    insist(abs(y - rows(r, 7)) < 1e-12, "polynomial");
  end
  for c = 1:count
    gain = spread(0.2, 50);
    theta = spread(1, 300);
    tau = six(theta * spread(0.3, 20));
    Kc = six(spread(0.2, 0.7) * tau / (gain * theta));
    Ti = six(min(tau, 8 * theta) * spread(0.7, 1.5));
    rows = [rows; response(gain, tau, theta, Kc, Ti)];
  end
end

% In time constants, one stage of the loop without dead time is the sum of an integrator and a lag:
% (T*s + 1)/(T*s*(s + 1)) = 1/(T*s) + (1 - 1/T)/(s + 1) with T = Ti/tau.
function rows = response(gain, tau, theta, Kc, Ti)
  times = theta * [1.25 1.75 2.5 3.5 4.5 6.25 8.75 11.5];
  stage = [0, 0; 0, -1];
  into = [1; 1];
  out = Kc * gain * [tau / Ti, 1 - tau / Ti];
  y = zeros(size(times));
  for n = 1:11
    M = kron(eye(n), stage) + kron(diag(ones(n - 1, 1), -1), into * out);
    M = [M, [into; zeros(2 * n - 2, 1)]; zeros(1, 2 * n + 1)]; % with a step for input
    for k = find(times >= n * theta)
      E = expm(M * (times(k) - n * theta) / tau);
      y(k) += (-1)^(n + 1) * out * E(2 * n - 1:2 * n, end);
    end
  end
  n = numel(times);
  rows = [repmat([gain, tau, theta, Kc, Ti], n, 1), times.', y.'];
end

main(argv());
