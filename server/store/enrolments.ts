import type { StoreOrTransaction } from './open.ts';
import type { Enrolment } from '#shared/voice/enrolment.ts';
import type { EnrolledView } from '#shared/wire/voice-takes.ts';

/** Keeps how a person is understood at a bench in place of what was known before. */
export async function saveEnrolment(store: StoreOrTransaction, kept: EnrolledView): Promise<void> {
  const { staff, bench, at, enrolment } = kept;
  const body = JSON.stringify(enrolment);
  await store
    .insertInto('voice_enrolment')
    .values({ staff, bench, body, at })
    .onConflict((both) => both.columns(['staff', 'bench']).doUpdateSet({ body, at }))
    .execute();
}

export async function forgetEnrolment(store: StoreOrTransaction, staff: string, bench: string): Promise<void> {
  await store.deleteFrom('voice_enrolment').where('staff', '=', staff).where('bench', '=', bench).execute();
}

export async function allEnrolments(store: StoreOrTransaction): Promise<readonly EnrolledView[]> {
  const rows = await store.selectFrom('voice_enrolment').selectAll().orderBy('staff').orderBy('bench').execute();
  return rows.map(({ staff, bench, body, at }) => ({ staff, bench, at, enrolment: JSON.parse(body) as Enrolment }));
}
