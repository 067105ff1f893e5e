// A chapter: for each of its views a sentence, pictures, inputs, tables; beside them the working that is open.
import type { ReactNode } from 'react';
import type { ChapterAt, TableAt, ViewAt, WorkAt } from '../computing/protocol.ts';
import type { SheetState } from '../document/state.ts';
import { ChooseRacks } from './choose-racks.tsx';
import { DataTable, LaterTable } from './data-table.tsx';
import { Figure } from './figure.tsx';
import { InputRow } from './input-row.tsx';
import { Work } from './long-work.tsx';
import { Sentence } from './sentence.tsx';
import { goTo } from './sight.ts';

export function Chapter({ chapter, state }: { readonly chapter: ChapterAt; readonly state: SheetState }) {
  return (
    <section id={chapter.domain} tabIndex={-1} aria-labelledby={`${chapter.domain}-title`}>
      {chapter.views.map((view, at) => (
        <ViewOf
          key={view.address}
          view={view}
          state={state}
          title={chapter.title}
          id={at === 0 ? `${chapter.domain}-title` : undefined}
          several={chapter.views.length > 1}
          before={chapter.views.slice(0, at).flatMap(({ pictures }) => pictures).length}
        >
          {at === 0 && chapter.views.length > fewViews && <Within chapter={chapter} />}
        </ViewOf>
      ))}
    </section>
  );
}

/** A chapter with more views than these says at its head which there are (our judgement). */
const fewViews = 2;

const Within = ({ chapter: { title, views } }: { readonly chapter: ChapterAt }) => (
  <nav className="within" aria-label={`In the chapter ${title}`}>
    {views.map((view) => (
      <button key={view.address} type="button" className="quiet" onClick={() => goTo(view.address)}>
        {view.title}
      </button>
    ))}
  </nav>
);

interface ViewProps {
  readonly view: ViewAt;
  readonly state: SheetState;
  readonly title: string;
  readonly id?: string | undefined;
  /** Whether the view's own title must tell it from others. */
  readonly several: boolean;
  /** How many pictures of the chapter stand before it. */
  readonly before?: number;
  /** What stands between its title and its sentence. */
  readonly children?: ReactNode;
}

const Made = ({ table, address }: { readonly table: TableAt | undefined; readonly address: string }) =>
  table && <DataTable table={table} address={address} />;

export function ViewOf({ view, state, title, id, several, before = 0, children }: ViewProps) {
  const inputsBefore = new Map(
    [...(state.before?.chapters.flatMap(({ views }) => views) ?? []), ...(state.before?.looked ?? [])].flatMap(
      ({ inputs }) => inputs.map((input) => [input.path, input.place] as const),
    ),
  );
  const tableOf = (name: string): TableAt | undefined => state.tables[`${view.address} ${name}`];
  const workOf = (work: WorkAt) => (
    <Work
      key={work.name}
      work={work}
      address={view.address}
      about={view.title}
      state={state.works[`${view.address} ${work.name}`]}
    />
  );
  return (
    <div className="chapter" data-view={view.address} tabIndex={-1}>
      <h2 className="chap" id={id}>
        {title}
        {several && view.title !== title && <small> {view.title}</small>}
      </h2>
      {children}
      <p className="result">
        <Sentence cells={view.says} />
      </p>
      <div className="full">
        {view.pictures.map((picture, at) => (
          <Figure
            key={picture.name}
            picture={picture}
            label={`${title}, figure ${String(before + at + 1)}`}
            address={view.address}
          />
        ))}
      </div>
      <div className="work">
        {view.inputs.length > 0 && (
          <fieldset className="inputs">
            <legend className="vh">Inputs of {view.title}</legend>
            {view.inputs.map((input) => (
              <InputRow key={input.path} input={input} before={inputsBefore.get(input.path)} />
            ))}
          </fieldset>
        )}
        {view.choosing && (
          <ChooseRacks choosing={view.choosing} address={view.address} about={view.title} state={state} />
        )}
        {view.tables.map((table) => (
          <DataTable key={table.name} table={table} address={view.address} />
        ))}
        {view.later.map(({ name, title: what }) => (
          <LaterTable key={name} name={name} title={what} address={view.address} table={tableOf(name)}>
            {view.works.filter((work) => work.name === name).map(workOf)}
          </LaterTable>
        ))}
        {view.works
          .filter(({ name }) => !view.later.some((each) => each.name === name))
          .map((work) => (
            <div className="later" key={work.name}>
              {workOf(work)}
              <Made table={tableOf(work.name)} address={view.address} />
            </div>
          ))}
      </div>
    </div>
  );
}
