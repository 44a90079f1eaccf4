/** Sentences of the rules on control. */
import type { RuleWords, Said } from '../../findings.ts'

/** Toward PWM: set it where the header has it, else go where it is. */
const towardPwm = (f: Said): string => {
  if (f.of('set') === 'yes') return `set ${f.of('at')} to PWM`
  const where = f.of('free') || 'a fan header that offers PWM'
  return `${f.of('at')} can do DC only: move ${f.of('plug')} to ${where}`
}

export const control: Readonly<Record<string, RuleWords>> = {
  'three-pin-on-pwm': {
    title: 'Fan without control pin on a PWM header',
    limit: 'four pins',
    doing: 'setting',
    says: (f) =>
      `${f.of('fan')} ${f.verb('fan', 'has', 'have')} ${f.of('pins')} pins and ${f.of('at')} controls by PWM: ${f.verb('fan', 'it runs', 'they run')} at full speed whatever is set`,
    todo: (f) =>
      f.of('lowers') === 'yes'
        ? `set ${f.of('at')} to DC, or use ${f.verb('fan', 'a 4-pin fan', '4-pin fans')}`
        : `use ${f.verb('fan', 'a 4-pin fan, or move it', '4-pin fans, or move them')} to a header that can do DC`,
  },
  'control-not-passed': {
    title: 'Control wire ends on the way',
    limit: 'a control wire all the way',
    doing: (f) => (f.of('from') === 'supply' ? 'know' : 'part'),
    says: (f) =>
      `${f.of('part')} passes no control wire, so ${f.of('fan')} ${f.verb('fan', 'runs', 'run')} at full speed`,
    todo: (f) => {
      if (f.of('from') === 'supply')
        return `nothing if full speed is meant; for control plug ${
          f.count('fan') === 1
            ? `its motor lead into ${f.of('free') || 'a fan header'}`
            : 'their motor leads into fan headers'
        }`
      const other = f.of('dc') === 'yes' ? ', or set the header to DC' : ''
      return `replace ${f.of('part')} by one with four wires${other}`
    },
  },
  'hub-without-control-lead': {
    title: 'Hub or controller without its control lead',
    limit: 'a lead from a header',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} has no lead to a fan header: ${f.of('fans')} ${f.verb('fans', 'runs', 'run')} at full speed and no header reads ${f.verb('fans', 'it', 'them')}`,
    todo: (f) => `plug ${f.of('part')}.in into a fan header`,
  },
  'four-pin-on-dc': {
    title: '4-pin fan on a DC header',
    limit: 'PWM for four pins',
    doing: (f) => (f.of('set') === 'yes' ? 'setting' : f.of('free') ? 'rewire' : 'know'),
    says: (f) =>
      `${f.of('fan')} ${f.verb('fan', 'has', 'have')} four pins and ${f.of('at')} lowers ${f.verb('fan', 'its', 'their')} voltage; ${f.verb('fan', 'it', 'they')} may tick or drop out when slow`,
    todo: (f) =>
      f.of('set') === 'yes' || f.of('free')
        ? towardPwm(f)
        : `nothing if ${f.verb('fan', 'it runs', 'they run')} well; else use a header that offers PWM`,
  },
  'dc-into-powered-hub': {
    title: 'DC into a hub with its own supply',
    limit: 'PWM',
    doing: (f) => (f.of('set') === 'yes' ? 'setting' : 'rewire'),
    says: (f) =>
      `${f.of('at')} controls by DC, but ${f.of('fans')} ${f.verb('fans', 'gets its', 'get their')} 12 V elsewhere and ${f.verb('fans', 'does', 'do')} not follow`,
    todo: towardPwm,
  },
  'drive-not-offered': {
    title: 'Drive mode that the header does not have',
    limit: 'what the header can do',
    doing: 'setting',
    says: (f) => `${f.of('at')} is set to ${f.of('set')} but can only do ${f.of('can')}`,
    todo: (f) => `set it to ${f.of('can')}, or use another header`,
  },
  'curve-under-start-duty': {
    title: 'Curve rests under the fan’s start',
    limit: 'the duty at which the fan starts',
    doing: 'setting',
    says: (f) =>
      f.of('from') === 'zero'
        ? `the curve of ${f.of('at')} has a step at ${f.figure}; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit} and ${f.verb('fan', 'stays', 'stay')} still until the curve passes that`
        : `the curve of ${f.of('at')} rests at ${f.figure}; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit} and may stand still`,
    todo: (f) => `lift ${f.of('from') === 'zero' ? 'every step above 0' : 'the lowest point'} to ${f.limit}`,
  },
  'curve-never-starts': {
    title: 'Curve that never starts the fan',
    limit: 'the duty at which the fan starts',
    doing: 'setting',
    says: (f) =>
      `the curve of ${f.of('at')} reaches ${f.figure} at most; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit}, so ${f.verb('fan', 'it never turns', 'they never turn')}`,
    todo: (f) => `lift the curve: over ${f.limit} when warm, at best 100 % at its top`,
  },
  'dc-never-starts': {
    title: 'Voltage never enough to start the fan',
    limit: 'the volts at which the fan starts',
    doing: 'setting',
    says: (f) =>
      `the curve of ${f.of('at')} gives ${f.figure} at most; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit}, so ${f.verb('fan', 'it never turns', 'they never turn')}`,
    todo: (f) => `lift the curve until more than ${f.limit} are given when warm, at best 100 % at its top`,
  },
  'curve-rests-at-zero': {
    title: 'Curve rests at zero',
    limit: 'none; a choice',
    doing: (f) => (f.finding.severity === 'may-not-work' ? 'setting' : 'know'),
    says: (f) =>
      `the curve of ${f.of('at')} goes down to 0 %: ${f.of('fans')} ${f.verb('fans', 'stands', 'stand')} still when cool, and the header reads 0 rpm`,
    todo: (f) =>
      f.finding.severity === 'may-not-work'
        ? 'lift the lowest point: this header is watched at power-on and expects a turning fan'
        : 'nothing if it is meant so; else lift the lowest point',
  },
  'dc-under-start-volts': {
    title: 'Voltage under the fan’s start',
    limit: 'the volts at which the fan starts',
    doing: 'setting',
    says: (f) =>
      f.of('from') === 'zero'
        ? `the curve of ${f.of('at')} has a step at ${f.figure}; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit} and ${f.verb('fan', 'stays', 'stay')} still until the curve passes that`
        : `${f.of('at')} goes down to ${f.figure}; ${f.of('fan')} ${f.verb('fan', 'starts', 'start')} at ${f.limit} and may stay still once stopped`,
    todo: (f) =>
      `lift ${f.of('from') === 'zero' ? 'every step above 0' : 'the lowest point of the curve'} until ${f.limit} are given`,
  },
  'curve-falls': {
    title: 'Curve that falls',
    limit: 'hotter, faster',
    doing: 'setting',
    says: (f) => `the curve of ${f.of('at')} gives less duty at a higher temperature`,
    todo: () => 'put its points in rising order',
  },
  'curve-never-full': {
    title: 'Curve that stays low',
    limit: '60 % at its top',
    doing: 'setting',
    says: (f) => `the curve of ${f.of('at')} ends at ${f.figure}, however hot it gets`,
    todo: () => 'let the last point reach 100 %',
  },
  'pump-slowed': {
    title: 'Pump on a curve',
    limit: '100 %',
    doing: 'setting',
    says: (f) => `pump ${f.of('pump')} follows the curve of ${f.of('at')} down to ${f.figure}`,
    todo: (f) => `hold ${f.of('at')} at 100 %`,
  },
  'pump-uncurved': {
    title: 'Pump on a fan header without a setting',
    limit: 'full speed',
    doing: 'setting',
    says: (f) =>
      `pump ${f.of('pump')} is on ${f.of('at')}, a plain fan header whose usual curve slows it down`,
    todo: (f) => `set ${f.of('at')} to full speed, or use the pump header`,
  },
  'fan-on-pump-header': {
    title: 'Fan on the pump header',
    limit: 'a fan header',
    doing: 'rewire',
    says: (f) =>
      `${f.of('fans')} ${f.verb('fans', 'is', 'are')} on ${f.of('at')}, a pump header, which runs at full speed`,
    todo: (f) => `move ${f.verb('fans', 'it', 'them')} to a fan header, or give the header a curve`,
  },
  'cpu-header-empty': {
    title: 'CPU fan header left empty',
    limit: 'something with a tach',
    doing: 'rewire',
    says: (f) => `nothing is on ${f.of('at')}, which is watched at power-on: the boot stops with a warning`,
    todo: () => 'plug in the cooler’s fan, or the pump’s tach lead',
  },
  'cpu-header-no-tach': {
    title: 'CPU fan header gets no tach',
    limit: 'one tach',
    doing: 'rewire',
    says: (f) => `${f.of('at')} is watched at power-on and what is plugged in there returns no speed`,
    todo: () => 'plug in something that returns a tach',
  },
  'alarm-above-speed': {
    title: 'Alarm above the fan’s speed',
    limit: 'the speed that the header reads at the curve’s lowest point',
    doing: 'setting',
    says: (f) =>
      `${f.of('at')} raises an alarm under ${f.limit}, and ${f.of('fan')} reads ${f.figure} at rest`,
    todo: (f) =>
      f.finding.figure === 0
        ? 'lift the lowest point of the curve so that it keeps turning, or set the alarm to 0 (never)'
        : `set the alarm under ${f.figure}`,
  },
  'alarm-without-tach': {
    title: 'Alarm on a header that gets no tach',
    limit: 'a tach',
    doing: 'setting',
    says: (f) =>
      `${f.of('at')} raises an alarm under ${f.limit} and gets no tach: it reads 0 and never rests`,
    todo: () => 'set the alarm to 0, or bring a tach there',
  },
  'alarm-off': {
    title: 'No alarm on the CPU or pump header',
    limit: 'an alarm above 0',
    doing: 'setting',
    says: (f) => `${f.of('at')} never raises an alarm, so a stopped pump or CPU fan goes unnoticed`,
    todo: () => 'set a limit of 200 to 300 rpm',
  },
  'unlike-fans-on-one-header': {
    title: 'Unlike fans on one header',
    limit: '1.5 times the slowest fan’s top speed',
    doing: 'know',
    says: (f) =>
      `${f.of('fans')} share ${f.of('at')}; at one duty they turn from ${f.limit} to ${f.figure} at the top`,
    todo: () => 'put like fans together, if the noise matters',
  },
  'mixed-plugs-on-one-header': {
    title: '3-pin and 4-pin fans on one header',
    limit: 'one kind',
    doing: 'rewire',
    says: (f) => {
      const taken = f.of('taken') === 'yes' ? ' (taken, as no mode is set)' : ''
      const suffers =
        f.of('mode') === 'pwm'
          ? `by PWM${taken} ${f.of('without')} ${f.verb('without', 'runs', 'run')} at full speed whatever is set`
          : `by DC${taken} ${f.of('with4')} may tick or drop out when slow`
      return `${f.of('at')} carries ${f.of('with4')} with four pins and ${f.of('without')} with fewer; ${suffers}`
    },
    todo: (f) =>
      `give each kind a header of its own${f.of('mode') === 'pwm' && f.of('dc') === 'yes' ? `; if they must share it, set ${f.of('at')} to DC and let them not turn slowly` : ''}`,
  },
}
