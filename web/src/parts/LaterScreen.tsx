import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Screen } from './Screen.tsx';
import { Trouble } from './Trouble.tsx';
import { Waiting } from './Waiting.tsx';

const GONE = {
  code: 'offline',
  message:
    'This page could not be fetched: the Layfair server is off, out of reach, or newer than what is open here.',
  issues: [],
};

/** A screen that is fetched when it is first opened, so that the first page stays light. */
export function laterScreen(title: string, load: () => Promise<ComponentType>): ComponentType {
  let known: ComponentType | null = null;
  return function LaterScreen() {
    const [state, setState] = useState<'waiting' | 'here' | 'lost'>('waiting');
    useEffect(() => {
      if (known !== null) return;
      load().then(
        (found) => {
          known = found;
          setState('here');
        },
        () => setState('lost'),
      );
    }, []);
    if (known !== null) {
      const Known = known;
      return <Known />;
    }
    if (state === 'lost') {
      // A browser remembers a module that failed for as long as the page is open: only a new one asks again.
      return (
        <Screen title={title}>
          <Trouble problem={GONE} again={() => location.reload()} />
        </Screen>
      );
    }
    // No heading to move the focus to yet: the screen itself does that once it is here.
    return (
      <main id="content" class="screen">
        <Waiting words="Fetching the page …" />
      </main>
    );
  };
}
