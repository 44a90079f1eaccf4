/** `whichlead practice [PLAN]`: an exercise on a planted fault, on the screen by menus or line by line. */
import { compile } from '../../core/bench/build.ts'
import { demoBuild } from '../../io/demo-build.ts'
import { beginExercise } from '../../job/practice/exercise.ts'
import type { Run } from '../command.ts'
import { draw } from '../practice-fault.ts'
import { frontFor } from '../practice-front.ts'
import { talk } from '../practice-talk.ts'
import { verdictLines } from '../practice-words.ts'
import { planFrom } from '../read-plan.ts'

export const run: Run = async (given, shell) => {
  const { language } = shell
  const path = given.arguments[0] ?? demoBuild(shell.program)
  if (path === undefined) {
    shell.err(language.practice.noDemo)
    return 2
  }
  const plan = planFrom(path, shell)
  if (plan === undefined) return 2
  if (shell.stdout.isTTY) shell.out(language.practice.planting)
  const chosen = draw(given, compile(plan), shell)
  if (chosen === undefined) return 2
  const { plantable, ground, engine, again, likely } = chosen
  const front = await frontFor(given, shell)
  const intro = [
    ...language.practice.intro(plan.build, language.symptom(plantable.symptom).name),
    ...(again === null ? [] : [again]),
  ]
  const talked = await talk(beginExercise(ground, plantable.known), intro, likely, front.choose, language)
  await front.close()
  const code = front.code()
  if (code === 0) front.tell(['', ...verdictLines(talked, engine, language)])
  shell.stdin.destroy()
  return code
}
